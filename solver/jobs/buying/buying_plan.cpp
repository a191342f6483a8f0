#include "solver/jobs/buying/buying_plan.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <queue>

#include "solver/explain/relax_wish.hpp"
#include "solver/jobs/buying/buying_joint.hpp"
#include "solver/optimise/relaxed.hpp"

namespace barwright::solver {
namespace {

// Weight of what an oil is worth beside the cash it costs, in the relaxation alone: among equal
// purchases it points at the cheaper blends. What it adds to a bound is taken off again.
constexpr double kHint = 1e-6;
constexpr double kUsed = 1e-6;  // kg: less is rounding
constexpr long kDiveEvery = 50;
constexpr double kCent = 1e-9;  // two sums nearer than this are one

// A kind of pack on offer.
struct Kind {
  int oil = -1, pack = -1;
  double grams = 0, price = 0;
};

enum class Oil : signed char { free, in, out };

// A part of the search: packs bought already, kinds of which no more is bought, oils that are
// counted in or left out.
struct Part {
  double bound = 0;  ///< no purchase in it costs less, delivered
  int depth = 0;
  long order = 0;
  double goods = 0;
  std::vector<int> counts;
  std::vector<char> closed;
  std::vector<Oil> oils;
  std::vector<double> used, bought;  ///< kg per oil, in the relaxation
};

struct Later {
  bool operator()(const std::unique_ptr<Part>& a, const std::unique_ptr<Part>& b) const {
    if (a->bound != b->bound) return a->bound > b->bound;
    if (a->depth != b->depth) return a->depth < b->depth;
    return a->order < b->order;
  }
};

// The most of an oil that a bar can take, a fraction: proved, but not the least such figure.
double most_share(const Problem& bar, std::size_t oil) {
  const double most = std::min(1.0, double(bar.oils[oil].most) / bar.steps);
  if (most <= 0) return 0;
  Goal goal;
  goal.form.linear.assign(bar.oils.size(), 0.0);
  goal.form.linear[oil] = -1;
  const Relaxed solved = relaxed(bar, goal);
  // Rounded up a little: what the checker's tolerance lets through is not cut off.
  return solved.empty ? 0 : std::clamp(-solved.bound + 1e-6, 0.0, most);
}

class Planner {
 public:
  Planner(const BuyingQuestion& question, const SearchOptions& options, long most_tried)
      : question_(question), options_(options), most_tried_(most_tried) {
    const std::size_t oils = question.stock_grams.size();
    for (std::size_t oil = 0; oil < oils; ++oil) {
      double most = 0;  // grams of it that the whole range could take
      for (const auto& bar : question.bars) most += bar.oil_grams * most_share(bar.problem, oil);
      most_grams_.push_back(most);
      for (std::size_t pack = 0; most > 0 && pack < question.packs[oil].size(); ++pack) {
        const auto& offer = question.packs[oil][pack];
        kinds_.push_back({int(oil), int(pack), offer.grams, offer.price});
      }
    }
    for (const auto& bar : question.bars) {
      const double dearest =
          *std::max_element(question.worth_per_kg.begin(), question.worth_per_kg.end());
      hint_most_ += kHint * bar.oil_grams / 1000 * std::max(dearest, 0.0);
    }
  }

  BuyingPlan plan() {
    best_.proved = true;
    auto root = std::make_unique<Part>();
    root->counts.assign(kinds_.size(), 0);
    root->closed.assign(kinds_.size(), 0);
    for (const double most : most_grams_) root->oils.push_back(most > 0 ? Oil::free : Oil::out);
    put(std::move(root));
    while (!open_.empty()) {
      // The least bound of all: nothing left can be cheaper.
      if (open_.top()->bound >= cap()) break;
      if (best_.tried >= most_tried_ || out_of_time(options_)) {
        best_.proved = false;
        break;
      }
      ++best_.tried;
      // A priority queue lends its top only as const; it is popped at once.
      auto part = std::move(const_cast<std::unique_ptr<Part>&>(open_.top()));
      open_.pop();
      split(*part);
    }
    if (best_.found) settle();
    return best_;
  }

 private:
  double cap() const {
    return std::min(best_.found ? best_.cash() - kCent : kInfinity, question_.most_cash + kCent);
  }
  std::size_t oils() const { return question_.stock_grams.size(); }
  bool fresh(std::size_t oil) const { return question_.stock_grams[oil] <= 0; }

  std::vector<double> there(const Part& part) const {
    std::vector<double> out = question_.stock_grams;
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      out[std::size_t(kinds_[k].oil)] += part.counts[k] * kinds_[k].grams;
    }
    return out;
  }

  // Leaves out what the counts have no room for any more. Returns whether they are kept at all.
  bool count(Part& part) const {
    int in = 0, in_fresh = 0;
    for (std::size_t oil = 0; oil < oils(); ++oil) {
      if (part.oils[oil] != Oil::in) continue;
      ++in;
      in_fresh += fresh(oil);
    }
    const int most = question_.most_oils > 0 ? question_.most_oils : int(oils());
    const int most_new = question_.most_new < 0 ? int(oils()) : question_.most_new;
    if (in > most || in_fresh > most_new) return false;
    for (std::size_t oil = 0; oil < oils(); ++oil) {
      if (part.oils[oil] != Oil::free) continue;
      if (in == most || (in_fresh == most_new && fresh(oil))) part.oils[oil] = Oil::out;
    }
    return true;
  }

  bool counts_kept(const std::vector<int>& set) const {
    const auto news =
        std::count_if(set.begin(), set.end(), [&](int oil) { return fresh(std::size_t(oil)); });
    return (question_.most_oils <= 0 || int(set.size()) <= question_.most_oils) &&
           (question_.most_new < 0 || int(news) <= question_.most_new);
  }

  // What a kg of an oil adds to the cash at least. A pack of which the range cannot use all costs
  // its whole price all the same.
  double least_per_kg(const Part& part, std::size_t oil) const {
    double least = kInfinity;
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      if (std::size_t(kinds_[k].oil) != oil || part.closed[k]) continue;
      least = std::min(least, kinds_[k].price / std::min(kinds_[k].grams, most_grams_[oil]));
    }
    return 1000 * least;
  }

  // Bounds a part by packs cut to measure. Returns false when nothing in it can be the plan.
  bool bound(Part& part) const {
    if (!count(part)) return false;
    const std::vector<double> have = there(part);
    std::vector<JointColumn> columns;
    std::vector<double> per_kg(oils(), kInfinity);
    for (std::size_t oil = 0; oil < oils(); ++oil) {
      if (part.oils[oil] == Oil::out) continue;
      if (have[oil] > 0) columns.push_back({int(oil), false});
      per_kg[oil] = least_per_kg(part, oil);
      if (per_kg[oil] < kInfinity) columns.push_back({int(oil), true});
    }
    if (columns.empty()) return false;
    Joint joint(question_, columns, true);
    Problem& problem = joint.problem();
    Goal cash;
    cash.form = joint.empty();
    for (std::size_t c = 0; c < columns.size(); ++c) {
      const auto oil = std::size_t(columns[c].oil);
      const Form kilograms = joint.kilograms(c);
      const double price =
          kHint * question_.worth_per_kg[oil] + (columns[c].bought ? per_kg[oil] : 0);
      for (std::size_t v = 0; v < kilograms.linear.size(); ++v) {
        cash.form.linear[v] += price * kilograms.linear[v];
      }
      if (!columns[c].bought) {
        problem.limits.push_back({kilograms, -kInfinity, have[oil] / 1000, -1});
      }
    }
    limit_counts(joint, columns, part);
    const Relaxed solved = relaxed(problem, cash, options_.allowance);
    if (solved.empty) return false;
    const double more = std::max(0.0, solved.bound - hint_most_);
    part.bound = std::max(part.bound, question_.delivery.least_cash(part.goods + more));
    // Nor less than the packs it holds, with whatever may free the delivery.
    const double held = with_delivery(part.goods).first;
    part.bound = std::max(part.bound, held + question_.delivery.of(held));
    if (part.bound >= cap()) return false;
    part.used.assign(oils(), 0);
    part.bought.assign(oils(), 0);
    for (std::size_t c = 0; c < columns.size(); ++c) {
      const auto oil = std::size_t(columns[c].oil);
      const double kg = joint.kilograms_at(c, solved.point);
      part.used[oil] += kg;
      if (columns[c].bought) part.bought[oil] += kg;
    }
    return true;
  }

  // An oil that is used takes a whole place among so many, though the relaxation uses little of it.
  void limit_counts(Joint& joint, const std::vector<JointColumn>& columns, const Part& part) const {
    const auto add = [&](int most, bool only_fresh) {
      Form places = joint.empty();
      int in = 0;
      for (std::size_t oil = 0; oil < oils(); ++oil) {
        in += part.oils[oil] == Oil::in && (!only_fresh || fresh(oil));
      }
      for (std::size_t c = 0; c < columns.size(); ++c) {
        const auto oil = std::size_t(columns[c].oil);
        if (part.oils[oil] != Oil::free || (only_fresh && !fresh(oil))) continue;
        const Form kilograms = joint.kilograms(c);
        for (std::size_t v = 0; v < kilograms.linear.size(); ++v) {
          places.linear[v] += 1000 * kilograms.linear[v] / most_grams_[oil];
        }
      }
      joint.problem().limits.push_back({std::move(places), -kInfinity, double(most - in), -1});
    };
    if (question_.most_oils > 0) add(question_.most_oils, false);
    if (question_.most_new >= 0) add(question_.most_new, true);
  }

  void put(std::unique_ptr<Part> part) {
    if (!bound(*part)) return;
    part->order = ++made_;
    open_.push(std::move(part));
  }

  std::vector<int> used_set(const Part& part) const {
    std::vector<int> out;
    for (std::size_t oil = 0; oil < oils(); ++oil) {
      if (part.used[oil] >= kUsed) out.push_back(int(oil));
    }
    return out;
  }

  // Leaves the least used oils out, one after the other, until the counts are kept: a first plan.
  void dive(Part part) {
    for (;;) {
      const std::vector<int> set = used_set(part);
      if (counts_kept(set)) {
        round_up(part);
        return;
      }
      const auto news =
          std::count_if(set.begin(), set.end(), [&](int oil) { return fresh(std::size_t(oil)); });
      const bool too_new = question_.most_new >= 0 && int(news) > question_.most_new;
      int least = -1;
      for (const int oil : set) {
        const auto at = std::size_t(oil);
        if (part.oils[at] != Oil::free || (too_new && !fresh(at))) continue;
        if (least < 0 || part.used[at] < part.used[std::size_t(least)]) least = oil;
      }
      if (least < 0) return;
      part.oils[std::size_t(least)] = Oil::out;
      if (!bound(part)) return;
    }
  }

  void split(const Part& part) {
    if (counts_kept(used_set(part))) {
      round_up(part);
    } else if (!best_.found || best_.tried % kDiveEvery == 0) {
      dive(part);
    }
    if (part.bound >= cap()) return;
    const std::size_t none = kinds_.size();
    std::size_t kind = none;
    double widest = 0;
    for (std::size_t oil = 0; oil < oils(); ++oil) {
      if (part.bought[oil] < kUsed) continue;
      const std::size_t k = cheapest_open(part, oil);
      if (k == none) continue;
      // Where a whole pack costs most beyond what was counted, both sides gain most.
      const double per_kg = kinds_[k].price / std::min(kinds_[k].grams, most_grams_[oil]) * 1000;
      const double gap = kinds_[k].price - std::min(kinds_[k].price, part.bought[oil] * per_kg);
      if (kind == none || gap > widest) {
        kind = k;
        widest = gap;
      }
    }
    if (kind == none) {
      const std::vector<int> set = at_hand(part);
      if (!counts_kept(set)) {
        split_oil(part, set);
        return;
      }
      // All that is at hand may be used, and was not enough (or round_up has closed the part).
      if (fits(part, set)) return;
      for (std::size_t k = 0; k < kinds_.size() && kind == none; ++k) {
        if (!part.closed[k] && part.oils[std::size_t(kinds_[k].oil)] != Oil::out) kind = k;
      }
      if (kind == none) return;
    }
    auto more = std::make_unique<Part>(part);
    more->depth += 1;
    more->counts[kind] += 1;
    more->goods += kinds_[kind].price;
    more->oils[std::size_t(kinds_[kind].oil)] = Oil::in;
    put(std::move(more));
    auto no_more = std::make_unique<Part>(part);
    no_more->depth += 1;
    no_more->closed[kind] = 1;
    put(std::move(no_more));
  }

  // Splits by whether one oil, the least used that is not settled, has a part in the range.
  void split_oil(const Part& part, const std::vector<int>& set) {
    int chosen = -1;
    for (const int oil : set) {
      const auto at = std::size_t(oil);
      if (part.oils[at] != Oil::free) continue;
      const bool used = part.used[at] >= kUsed;
      if (chosen < 0 || (used && part.used[std::size_t(chosen)] < kUsed) ||
          (used && part.used[at] < part.used[std::size_t(chosen)])) {
        chosen = oil;
      }
    }
    if (chosen < 0) return;
    for (const Oil side : {Oil::out, Oil::in}) {
      auto next = std::make_unique<Part>(part);
      next->depth += 1;
      next->oils[std::size_t(chosen)] = side;
      put(std::move(next));
    }
  }

  std::size_t cheapest_open(const Part& part, std::size_t oil) const {
    std::size_t best = kinds_.size();
    double least = kInfinity;
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      if (std::size_t(kinds_[k].oil) != oil || part.closed[k]) continue;
      const double per_gram = kinds_[k].price / std::min(kinds_[k].grams, most_grams_[oil]);
      if (per_gram < least) {
        least = per_gram;
        best = k;
      }
    }
    return best;
  }

  // The oils of a part that are there, in stock or bought.
  std::vector<int> at_hand(const Part& part) const {
    const std::vector<double> have = there(part);
    std::vector<int> out;
    for (std::size_t oil = 0; oil < oils(); ++oil) {
      if (part.oils[oil] != Oil::out && have[oil] > 0) out.push_back(int(oil));
    }
    return out;
  }

  // The relaxation's purchase in whole packs, with the oils it uses: often a plan already.
  void round_up(const Part& part) {
    Part whole = part;
    for (std::size_t oil = 0; oil < oils(); ++oil) {
      if (part.bought[oil] < kUsed) continue;
      const std::size_t k = cheapest_open(part, oil);
      if (k == kinds_.size()) return;
      const int packs = int(std::ceil(1000 * part.bought[oil] / kinds_[k].grams - 1e-9));
      whole.counts[k] += packs;
      whole.goods += packs * kinds_[k].price;
    }
    fits(whole, used_set(part));
  }

  // Whether all bars can be made from a purchase with these oils; keeps it if it is cheaper.
  bool fits(const Part& part, const std::vector<int>& set) {
    const auto [goods, extra] = with_delivery(part.goods);
    const double cash = goods + question_.delivery.of(goods);
    if (cash >= cap()) return false;
    const std::vector<double> have = there(part);
    std::vector<JointColumn> columns;
    for (const int oil : set) columns.push_back({oil, false});
    Joint joint(question_, columns, false);
    for (std::size_t c = 0; c < columns.size(); ++c) {
      joint.problem().limits.push_back(
          {joint.kilograms(c), -kInfinity, have[std::size_t(set[c])] / 1000, -1});
    }
    const Answer first = search(joint.problem(), options_);
    if (first.steps.empty()) {
      if (first.status != Status::infeasible) best_.proved = false;
      return false;
    }
    best_.found = true;
    best_.goods = goods;
    best_.delivery = question_.delivery.of(goods);
    counts_ = part.counts;
    for (const std::size_t k : extra) counts_[k] += 1;
    set_ = set;
    start_ = first.steps;
    return true;
  }

  // Goods that make delivery free may be the cheaper purchase: the least above the threshold.
  // Returns what is paid for goods then, and the packs beyond those needed.
  std::pair<double, std::vector<std::size_t>> with_delivery(double goods) const {
    const Delivery& delivery = question_.delivery;
    double best = goods + delivery.of(goods);
    std::pair<double, std::vector<std::size_t>> out{goods, {}};
    if (goods <= 0 || delivery.of(goods) <= 0) return out;
    std::vector<std::size_t> extra;
    const auto add = [&](const auto& again, std::size_t from, double sum) -> void {
      if (sum >= delivery.free_over) {
        if (sum < best - kCent) {
          best = sum;
          out = {sum, extra};
        }
        return;
      }
      for (std::size_t k = from; k < kinds_.size(); ++k) {
        if (sum + kinds_[k].price >= best) continue;
        extra.push_back(k);
        again(again, k, sum + kinds_[k].price);
        extra.pop_back();
      }
    };
    add(add, 0, goods);
    return out;
  }

  // Fills in the plan: the blends that cost least by worth with what is bought.
  void settle() {
    std::vector<double> have = question_.stock_grams;
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      if (counts_[k] == 0) continue;
      best_.buys.push_back({kinds_[k].oil, kinds_[k].pack, counts_[k]});
      have[std::size_t(kinds_[k].oil)] += counts_[k] * kinds_[k].grams;
    }
    // Other oils at hand may join where the counts have room.
    std::vector<int> set = set_;
    for (std::size_t oil = 0; oil < oils(); ++oil) {
      if (have[oil] <= 0 || most_grams_[oil] <= 0) continue;
      if (std::find(set.begin(), set.end(), int(oil)) != set.end()) continue;
      set.push_back(int(oil));
      if (!counts_kept(set)) set.pop_back();
    }
    std::vector<JointColumn> columns;
    for (const int oil : set) columns.push_back({oil, false});
    Joint joint(question_, columns, false);
    Goal worth;
    worth.form = joint.empty();
    for (std::size_t c = 0; c < columns.size(); ++c) {
      const auto oil = std::size_t(set[c]);
      const Form kilograms = joint.kilograms(c);
      joint.problem().limits.push_back({kilograms, -kInfinity, have[oil] / 1000, -1});
      for (std::size_t v = 0; v < kilograms.linear.size(); ++v) {
        worth.form.linear[v] += kilograms.linear[v] * question_.worth_per_kg[oil];
      }
    }
    joint.problem().goals = {worth};
    SearchOptions warm = options_;
    const std::size_t bars = question_.bars.size();
    warm.start.assign(bars * set.size(), 0);
    for (std::size_t b = 0; b < bars; ++b) {
      for (std::size_t c = 0; c < set_.size(); ++c) {
        warm.start[joint.variable(b, c)] = start_[b * set_.size() + c];
      }
    }
    const Answer answer = search(joint.problem(), warm);
    const std::vector<int>& steps = answer.steps.empty() ? warm.start : answer.steps;
    best_.used_grams.assign(oils(), 0.0);
    best_.steps.assign(bars, std::vector<int>(oils(), 0));
    for (std::size_t b = 0; b < bars; ++b) {
      for (std::size_t c = 0; c < set.size(); ++c) {
        const int taken = steps[joint.variable(b, c)];
        best_.steps[b][std::size_t(set[c])] = taken;
        best_.used_grams[std::size_t(set[c])] +=
            question_.bars[b].oil_grams * taken / question_.bars[b].problem.steps;
      }
    }
    best_.left_grams = have;
    for (std::size_t oil = 0; oil < oils(); ++oil) {
      best_.left_grams[oil] = std::max(0.0, have[oil] - best_.used_grams[oil]);
    }
  }

  const BuyingQuestion& question_;
  const SearchOptions& options_;
  long most_tried_, made_ = 0;
  std::vector<Kind> kinds_;
  std::vector<double> most_grams_;
  double hint_most_ = 0;
  std::priority_queue<std::unique_ptr<Part>, std::vector<std::unique_ptr<Part>>, Later> open_;
  BuyingPlan best_;
  std::vector<int> counts_, set_, start_;  // of the best so far
};

}  // namespace

BuyingPlan plan_buying(const BuyingQuestion& question, const SearchOptions& options,
                       long most_tried) {
  return Planner(question, options, most_tried).plan();
}

}  // namespace barwright::solver
