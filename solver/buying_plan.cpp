#include "solver/buying_plan.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <queue>

#include "solver/relax_wish.hpp"

namespace barwright::solver {
namespace {

using OilSet = std::vector<int>;

// All bars as one problem over (bar, oil) for the oils of a set, `copies` times each: every bar
// takes an equal number of steps, and its shares are those steps over its own.
class Joint {
 public:
  Joint(const BuyingQuestion& question, OilSet oils, int copies)
      : question_(question), oils_(std::move(oils)), copies_(copies) {
    const std::size_t bars = question.bars.size();
    const int steps = question.bars[0].problem.steps;
    out_.steps = steps * static_cast<int>(bars);
    for (const auto& bar : question.bars) {
      for (const int oil : oils_) {
        for (int copy = 0; copy < copies_; ++copy) {
          out_.oils.push_back(bar.problem.oils[static_cast<std::size_t>(oil)]);
          if (copies_ > 1) {  // either copy may be a part of a share: a relaxation
            out_.oils.back().least = 1;
            out_.oils.back().must = false;
          }
        }
      }
    }
    for (std::size_t b = 0; b < bars; ++b) {
      Form sum = empty();
      for (std::size_t v = 0; v < per_bar(); ++v) sum.linear[b * per_bar() + v] = 1;
      const double part = 1.0 / static_cast<double>(bars);
      out_.limits.push_back({std::move(sum), part, part, -1});
      for (const auto& limit : question.bars[b].problem.limits) {
        out_.limits.push_back({mapped(limit.form, b), limit.low, limit.high, -1});
      }
    }
  }

  // kg of an oil over all bars, of one copy.
  Form kilograms(std::size_t at, int copy) const {
    Form form = empty();
    const double bars = static_cast<double>(question_.bars.size());
    for (std::size_t b = 0; b < question_.bars.size(); ++b) {
      form.linear[variable(b, at, copy)] = bars * question_.bars[b].oil_grams / 1000;
    }
    return form;
  }

  std::size_t variable(std::size_t bar, std::size_t at, int copy) const {
    return bar * per_bar() + at * static_cast<std::size_t>(copies_) +
           static_cast<std::size_t>(copy);
  }
  Form empty() const {
    Form form;
    form.linear.assign(question_.bars.size() * per_bar(), 0.0);
    return form;
  }
  Problem& problem() { return out_; }
  const OilSet& oils() const { return oils_; }

 private:
  std::size_t per_bar() const { return oils_.size() * static_cast<std::size_t>(copies_); }

  std::vector<double> spread(const std::vector<double>& linear, std::size_t b) const {
    std::vector<double> out(question_.bars.size() * per_bar(), 0.0);
    const double bars = static_cast<double>(question_.bars.size());
    for (std::size_t at = 0; at < oils_.size(); ++at) {
      for (int copy = 0; copy < copies_; ++copy) {
        out[variable(b, at, copy)] = bars * linear[static_cast<std::size_t>(oils_[at])];
      }
    }
    return out;
  }
  Form mapped(const Form& form, std::size_t b) const {
    Form out;
    out.constant = form.constant;
    out.linear = spread(form.linear, b);
    for (const auto& kink : form.kinks) {
      out.kinks.push_back({kink.weight, spread(kink.slope, b), kink.cap});
    }
    return out;
  }

  const BuyingQuestion& question_;
  OilSet oils_;
  int copies_;
  Problem out_;
};

double least_per_kg(const BuyingQuestion& question, int oil) {
  double least = kInfinity;
  for (const auto& pack : question.packs[static_cast<std::size_t>(oil)]) {
    least = std::min(least, pack.per_kg());
  }
  return least;
}

bool may_use(const BuyingQuestion& question, int oil) {
  return std::any_of(question.bars.begin(), question.bars.end(), [&](const PlannedBar& bar) {
    return bar.problem.oils[static_cast<std::size_t>(oil)].most > 0;
  });
}

// The largest sets of oils that keep the counts: every set of `count` in stock with every set of
// new ones.
void choose(const OilSet& from, std::size_t count, std::size_t at, OilSet& so_far,
            std::vector<OilSet>& out) {
  if (so_far.size() == count) {
    out.push_back(so_far);
    return;
  }
  for (std::size_t i = at; i < from.size(); ++i) {
    so_far.push_back(from[i]);
    choose(from, count, i + 1, so_far, out);
    so_far.pop_back();
  }
}

std::vector<OilSet> sets_of(const BuyingQuestion& question) {
  OilSet in_stock, fresh;
  for (int oil = 0; oil < static_cast<int>(question.stock_grams.size()); ++oil) {
    if (!may_use(question, oil)) continue;
    if (question.stock_grams[static_cast<std::size_t>(oil)] > 0) {
      in_stock.push_back(oil);
    } else if (!question.packs[static_cast<std::size_t>(oil)].empty()) {
      fresh.push_back(oil);
    }
  }
  const std::size_t most = question.most_oils > 0 ? static_cast<std::size_t>(question.most_oils)
                                                  : in_stock.size() + fresh.size();
  const std::size_t most_new = std::min(
      {fresh.size(), most,
       question.most_new < 0 ? fresh.size() : static_cast<std::size_t>(question.most_new)});
  std::vector<OilSet> out;
  // With fewer new oils more of those in stock may join; otherwise a larger set holds a smaller.
  for (std::size_t news = 0; news <= most_new; ++news) {
    const std::size_t old = std::min(in_stock.size(), most - news);
    if (news < most_new && old == in_stock.size() && most > in_stock.size() + news) continue;
    std::vector<OilSet> olds, fresh_sets;
    OilSet none;
    choose(in_stock, old, 0, none, olds);
    choose(fresh, news, 0, none, fresh_sets);
    for (const auto& a : olds) {
      for (const auto& b : fresh_sets) {
        OilSet both = a;
        both.insert(both.end(), b.begin(), b.end());
        out.push_back(std::move(both));
      }
    }
  }
  return out;
}

// What the set must cost at least, were packs cut to measure; infinite: it has no blend at all.
// Nothing: not known.
std::optional<double> bound_of(const BuyingQuestion& question, const OilSet& oils,
                               const SearchOptions& options) {
  Joint joint(question, oils, 2);  // copy 0 from stock, copy 1 bought
  Problem& problem = joint.problem();
  Goal cash;
  cash.form = joint.empty();
  // What comes from stock is whole steps here and any weight in truth: rounded up, a bar takes less
  // than one step too much of it.
  double slip = 0;
  for (const auto& bar : question.bars) slip += bar.oil_grams / 1000 / bar.problem.steps;
  for (std::size_t at = 0; at < oils.size(); ++at) {
    const double stock = question.stock_grams[static_cast<std::size_t>(oils[at])] / 1000;
    problem.limits.push_back(
        {joint.kilograms(at, 0), -kInfinity, stock > 0 ? stock + slip : 0, -1});
    const double per_kg = least_per_kg(question, oils[at]);
    const Form bought = joint.kilograms(at, 1);
    for (std::size_t v = 0; v < bought.linear.size(); ++v) {
      if (bought.linear[v] == 0) continue;
      if (std::isinf(per_kg)) {
        problem.oils[v].most = 0;
      } else {
        cash.form.linear[v] = bought.linear[v] * per_kg;
      }
    }
  }
  problem.goals = {cash};
  // A bound needs no proof to the last cent: any proved lower bound will do.
  const Answer answer = search(problem, options);
  if (answer.status == Status::infeasible) return kInfinity;
  if (answer.goals.empty()) return std::nullopt;
  return std::max(0.0, answer.goals[0].bound);
}

struct Purchase {
  double cash = 0, goods = 0;
  std::vector<int> counts;  ///< per kind of pack on offer in the set
  std::size_t last = 0;     ///< kinds before it are settled: each purchase is met once
  bool operator>(const Purchase& other) const {
    return goods != other.goods ? goods > other.goods : counts > other.counts;
  }
};

class Planner {
 public:
  Planner(const BuyingQuestion& question, const SearchOptions& options, long most_tried)
      : question_(question), options_(options), most_tried_(most_tried) {}

  BuyingPlan plan() {
    struct Ranked {
      double bound;
      OilSet oils;
    };
    std::vector<Ranked> ranked;
    bool complete = true;
    for (auto& oils : sets_of(question_)) {
      if (oils.empty()) continue;
      const auto bound = bound_of(question_, oils, options_);
      if (!bound) complete = false;
      const double least = bound ? *bound : 0;
      if (std::isinf(least)) continue;
      ranked.push_back({question_.delivery.least_cash(least), std::move(oils)});
    }
    std::stable_sort(ranked.begin(), ranked.end(),
                     [](const Ranked& a, const Ranked& b) { return a.bound < b.bound; });
    best_.proved = complete;
    for (const auto& one : ranked) {
      if (one.bound > std::min(cap(), question_.most_cash) + 1e-9) break;
      within(one.oils, one.bound);
    }
    return best_;
  }

 private:
  double cap() const { return best_.found ? best_.cash() : kInfinity; }

  void within(const OilSet& oils, double bound) {
    std::vector<Buy> kinds;
    for (const int oil : oils) {
      const auto& packs = question_.packs[static_cast<std::size_t>(oil)];
      for (int pack = 0; pack < static_cast<int>(packs.size()); ++pack) {
        kinds.push_back({oil, pack, 0});
      }
    }
    std::priority_queue<Purchase, std::vector<Purchase>, std::greater<>> open;
    open.push({0, 0, std::vector<int>(kinds.size(), 0), 0});
    while (!open.empty()) {
      const Purchase top = open.top();
      open.pop();
      // By goods, not by cash: free delivery makes a larger purchase the cheaper one.
      if (top.goods >= cap() - 1e-9 || top.goods > question_.most_cash + 1e-9) break;
      const bool dear = top.cash >= cap() - 1e-9 || top.cash > question_.most_cash + 1e-9;
      if (!dear && top.cash >= bound - 1e-6) {
        if (best_.tried >= most_tried_ || out_of_time(options_)) {
          best_.proved = false;
          return;
        }
        ++best_.tried;
        test(oils, kinds, top);  // and on: with more goods delivery may be free
      }
      for (std::size_t k = top.last; k < kinds.size(); ++k) {
        Purchase next = top;
        next.counts[k] += 1;
        next.last = k;
        next.goods += question_
                          .packs[static_cast<std::size_t>(kinds[k].oil)]
                                [static_cast<std::size_t>(kinds[k].pack)]
                          .price;
        next.cash = next.goods + question_.delivery.of(next.goods);
        if (next.goods < cap() && next.goods <= question_.most_cash) open.push(std::move(next));
      }
    }
  }

  void test(const OilSet& oils, const std::vector<Buy>& kinds, const Purchase& purchase) {
    Joint joint(question_, oils, 1);
    Problem& problem = joint.problem();
    std::vector<double> there = question_.stock_grams;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
      const auto oil = static_cast<std::size_t>(kinds[k].oil);
      there[oil] +=
          purchase.counts[k] * question_.packs[oil][static_cast<std::size_t>(kinds[k].pack)].grams;
    }
    Goal worth;
    worth.form = joint.empty();
    for (std::size_t at = 0; at < oils.size(); ++at) {
      const auto oil = static_cast<std::size_t>(oils[at]);
      const Form kilograms = joint.kilograms(at, 0);
      problem.limits.push_back({kilograms, -kInfinity, there[oil] / 1000, -1});
      for (std::size_t v = 0; v < kilograms.linear.size(); ++v) {
        worth.form.linear[v] += kilograms.linear[v] * question_.worth_per_kg[oil];
      }
    }
    problem.goals = {worth};
    Problem any = problem;
    any.goals.clear();
    const Answer first = search(any, options_);
    if (first.steps.empty()) {
      if (first.status != Status::infeasible) best_.proved = false;
      return;
    }
    SearchOptions warm = options_;
    warm.start = first.steps;
    Answer answer = search(problem, warm);
    if (answer.steps.empty()) answer = first;
    const bool proved = best_.proved;
    const long tried = best_.tried;
    best_ = {};
    best_.found = true;
    best_.proved = proved;
    best_.tried = tried;
    best_.goods = purchase.goods;
    best_.delivery = purchase.cash - purchase.goods;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
      if (purchase.counts[k] == 0) continue;
      best_.buys.push_back(kinds[k]);
      best_.buys.back().count = purchase.counts[k];
    }
    best_.used_grams.assign(there.size(), 0.0);
    best_.steps.assign(question_.bars.size(), std::vector<int>(there.size(), 0));
    for (std::size_t b = 0; b < question_.bars.size(); ++b) {
      const auto& bar = question_.bars[b];
      for (std::size_t at = 0; at < oils.size(); ++at) {
        const auto oil = static_cast<std::size_t>(oils[at]);
        const int steps = answer.steps[joint.variable(b, at, 0)];
        best_.steps[b][oil] = steps;
        best_.used_grams[oil] += bar.oil_grams * steps / bar.problem.steps;
      }
    }
    best_.left_grams = there;
    for (std::size_t oil = 0; oil < there.size(); ++oil) {
      best_.left_grams[oil] = std::max(0.0, there[oil] - best_.used_grams[oil]);
    }
  }

  const BuyingQuestion& question_;
  const SearchOptions& options_;
  long most_tried_;
  BuyingPlan best_;
};

}  // namespace

BuyingPlan plan_buying(const BuyingQuestion& question, const SearchOptions& options,
                       long most_tried) {
  return Planner(question, options, most_tried).plan();
}

}  // namespace barwright::solver
