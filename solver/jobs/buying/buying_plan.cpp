// Best first over purchases: each part is split by a pack more or no more of a kind, or by an oil
// in or out, until what is at hand makes the range or nothing in it can.

#include "solver/jobs/buying/buying_plan.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <queue>

#include "solver/explain/relax_wish.hpp"
#include "solver/jobs/buying/buying_blends.hpp"
#include "solver/jobs/buying/buying_part.hpp"

namespace barwright::jobs {
namespace {

using Part = BuyingPart;
using Oil = BuyingPart::Oil;

constexpr long kDiveEvery = 50;
constexpr std::size_t kMostOpen = 100'000;  // parts put aside, about 2 kB each

struct Later {
  bool operator()(const std::unique_ptr<Part>& a, const std::unique_ptr<Part>& b) const {
    if (a->bound != b->bound) return a->bound > b->bound;
    if (a->depth != b->depth) return a->depth < b->depth;
    return a->order < b->order;
  }
};

class Planner {
 public:
  Planner(const BuyingQuestion& question, const optimise::SearchOptions& options)
      : question_(question), options_(options), parts_(question, options.allowance) {}

  BuyingPlan plan() {
    put(std::make_unique<Part>(parts_.all()));
    // The least bound of all: where it is no better than the best, nothing left can be cheaper.
    while (!open_.empty() && open_.top()->bound < cap()) {
      if (open_.size() > kMostOpen || explain::out_of_time(options_)) {
        leave_open(open_.top()->bound);
        break;
      }
      ++best_.tried;
      // A priority queue lends its top only as const; it is popped at once.
      auto part = std::move(const_cast<std::unique_ptr<Part>&>(open_.top()));
      open_.pop();
      split(*part);
    }
    best_.bound = undecided_ < cap() ? undecided_
                  : best_.found      ? best_.cash()
                                     : optimise::kInfinity;
    if (!best_.found) return best_;
    for (std::size_t k = 0; k < counts_.size(); ++k) {
      const auto& kind = parts_.kinds()[k];
      if (counts_[k] > 0) best_.buys.push_back({kind.oil, kind.pack, counts_[k]});
    }
    make_of(question_, parts_, blends_, options_, best_);
    return best_;
  }

 private:
  enum class Trial { made, too_little, too_dear, undecided };

  // What a purchase must cost less than to be of use.
  double cap() const {
    return std::min(best_.found ? best_.cash() - kSameMoney : optimise::kInfinity,
                    question_.most_cash + kSameMoney);
  }
  /// A purchase of this cash may be left that was neither found nor excluded.
  void leave_open(double bound) { undecided_ = std::min(undecided_, bound); }

  void put(std::unique_ptr<Part> part) {
    if (options_.allowance != nullptr)
      options_.allowance->spend(parts_.kinds().size() + parts_.oils());
    if (!parts_.bound(*part, cap())) return;
    part->order = ++made_;
    open_.push(std::move(part));
  }

  // Leaves the least used oils out, one after the other, until the counts are kept: a first plan.
  void dive(Part part) {
    for (;;) {
      const std::vector<int> set = parts_.used(part);
      if (parts_.counts_kept(set)) {
        round_up(part);
        return;
      }
      const auto news = std::count_if(set.begin(), set.end(),
                                      [&](int oil) { return parts_.fresh(std::size_t(oil)); });
      const bool too_new = question_.most_new >= 0 && int(news) > question_.most_new;
      int least = -1;
      for (const int oil : set) {
        const auto at = std::size_t(oil);
        if (part.oils[at] != Oil::free || (too_new && !parts_.fresh(at))) continue;
        if (least < 0 || part.used[at] < part.used[std::size_t(least)]) least = oil;
      }
      if (least < 0) return;
      part.oils[std::size_t(least)] = Oil::out;
      if (!parts_.bound(part, cap())) return;
    }
  }

  void split(const Part& part) {
    if (parts_.counts_kept(parts_.used(part))) {
      round_up(part);
    } else if (!best_.found || best_.tried % kDiveEvery == 0) {
      dive(part);
    }
    if (part.bound >= cap()) return;
    const std::size_t kind = dearest_gap(part);
    if (kind != parts_.kinds().size()) {
      split_kind(part, kind, false);
      return;
    }
    const std::vector<int> set = parts_.at_hand(part);
    if (!parts_.counts_kept(set)) {
      split_oil(part, set);
      return;
    }
    // All that is at hand may be used: if it makes the range, nothing else in the part is cheaper.
    if (!part.tried) {
      const Trial trial = try_out(part, set);
      if (trial == Trial::made || trial == Trial::too_dear) return;
      if (trial == Trial::undecided) leave_open(parts_.free_delivery().least_cash(part.goods));
    }
    for (std::size_t k = 0; k < parts_.kinds().size(); ++k) {
      if (part.closed[k] || part.oils[std::size_t(parts_.kinds()[k].oil)] == Oil::out) continue;
      split_kind(part, k, true);
      return;
    }
  }

  // The kind of which a whole pack costs most beyond what was counted: both sides gain most.
  std::size_t dearest_gap(const Part& part) const {
    const std::size_t none = parts_.kinds().size();
    std::size_t kind = none;
    double widest = 0;
    for (std::size_t oil = 0; oil < parts_.oils(); ++oil) {
      if (part.bought[oil] < kUsedKilograms) continue;
      const std::size_t k = parts_.cheapest_open(part, oil);
      if (k == none) continue;
      const double gap = parts_.gap(part, oil, k);
      if (kind == none || gap > widest) {
        kind = k;
        widest = gap;
      }
    }
    return kind;
  }

  void split_kind(const Part& part, std::size_t kind, bool tried) {
    auto more = std::make_unique<Part>(part);
    more->depth += 1;
    more->tried = false;
    more->oils[std::size_t(parts_.kinds()[kind].oil)] = Oil::in;
    parts_.buy(*more, kind, 1);
    put(std::move(more));
    auto no_more = std::make_unique<Part>(part);
    no_more->depth += 1;
    no_more->tried = tried;
    no_more->closed[kind] = 1;
    put(std::move(no_more));
  }

  // Splits by whether one oil, the least used that is not settled, has a part in the range.
  void split_oil(const Part& part, const std::vector<int>& set) {
    int chosen = -1;
    for (const int oil : set) {
      const auto at = std::size_t(oil);
      if (part.oils[at] != Oil::free) continue;
      const bool used = part.used[at] >= kUsedKilograms;
      if (chosen < 0 || (used && part.used[std::size_t(chosen)] < kUsedKilograms) ||
          (used && part.used[at] < part.used[std::size_t(chosen)])) {
        chosen = oil;
      }
    }
    if (chosen < 0) return;
    for (const Oil side : {Oil::out, Oil::in}) {
      auto next = std::make_unique<Part>(part);
      next->depth += 1;
      next->tried = false;
      next->oils[std::size_t(chosen)] = side;
      put(std::move(next));
    }
  }

  // The relaxation's purchase in whole packs, with the oils it uses: often a plan already. Whatever
  // comes of it, the part is still split.
  void round_up(const Part& part) {
    Part whole = part;
    for (std::size_t oil = 0; oil < parts_.oils(); ++oil) {
      if (part.bought[oil] < kUsedKilograms) continue;
      const std::size_t k = parts_.cheapest_open(part, oil);
      if (k == parts_.kinds().size()) return;
      parts_.buy(whole, k,
                 int(std::ceil(1000 * part.bought[oil] / parts_.kinds()[k].grams - 1e-9)));
    }
    try_out(whole, parts_.used(part));
  }

  // Whether all bars can be made from a purchase with these oils; keeps it if it is cheaper.
  Trial try_out(const Part& part, const std::vector<int>& set) {
    const FreeDelivery& free = parts_.free_delivery();
    const double goods = free.least_goods(part.goods);
    if (free.least_cash(part.goods) >= cap()) return Trial::too_dear;
    RangeBlends blends = blends_from(question_, set, parts_.there(part), options_);
    if (blends.steps.empty())
      return blends.status == optimise::Status::infeasible ? Trial::too_little : Trial::undecided;
    const double delivery = question_.delivery.of(goods);
    if (goods + delivery >= cap()) return Trial::undecided;  // packs that free it may be unknown
    best_.found = true;
    best_.goods = goods;
    best_.delivery = delivery;
    counts_ = part.counts;
    for (const std::size_t k : free.packs_beyond(part.goods)) counts_[k] += 1;
    blends_ = std::move(blends);
    return free.least_cash(part.goods) < best_.cash() - kSameMoney ? Trial::undecided : Trial::made;
  }

  const BuyingQuestion& question_;
  const optimise::SearchOptions& options_;
  BuyingParts parts_;
  long made_ = 0;
  std::priority_queue<std::unique_ptr<Part>, std::vector<std::unique_ptr<Part>>, Later> open_;
  BuyingPlan best_;
  double undecided_ =
      optimise::kInfinity;   ///< no purchase that was passed over undecided costs less
  std::vector<int> counts_;  ///< of the best so far
  RangeBlends blends_;
};

}  // namespace

bool BuyingPlan::proved() const {
  if (!found) return bound == optimise::kInfinity;
  return bound >= cash() - kSameMoney || std::round(100 * bound) >= std::round(100 * cash());
}

BuyingPlan plan_buying(const BuyingQuestion& question, const optimise::SearchOptions& options) {
  return Planner(question, options).plan();
}

}  // namespace barwright::jobs
