#include "solver/explain/reach.hpp"

#include <algorithm>
#include <cmath>

namespace barwright::explain {
namespace {

/// The last question asks for so much more, as a share of the level (or of 1, below 1).
constexpr double kRestateGrain = 1e-7;

/// Restating stops when the level is beaten by no more than the checker's own tolerance.
double beaten_by(const optimise::Form& form) { return 10 * optimise::kTolerance * form.scale(); }

optimise::Answer push(const optimise::Problem& problem, optimise::Form form, bool largest,
                      const optimise::SearchOptions& options) {
  optimise::Problem pushed = problem;
  pushed.goals = {optimise::Goal{optimise::scaled(std::move(form), largest ? -1 : 1), {}, 0}};
  return optimise::search(pushed, options);
}

Extreme nothing_found(const optimise::Answer& answer, bool largest) {
  Extreme end;
  end.status = answer.status;
  end.bound = largest ? optimise::kInfinity : -optimise::kInfinity;
  if (end.status == optimise::Status::infeasible) end.bound = -end.bound;
  return end;
}

Extreme shifting_extreme(const optimise::Problem& problem, const Measure& measure, bool largest,
                         const optimise::SearchOptions& options) {
  const optimise::Answer answer = push(problem, measure.form(0), largest, options);
  Extreme end = nothing_found(answer, largest);
  if (answer.steps.empty()) return end;
  end.steps = answer.steps;
  end.value = measure.at(problem.shares(answer.steps));
  if (!answer.goals.empty()) end.bound = answer.goals[0].bound * (largest ? -1 : 1);
  return end;
}

/// Restates a measure at the level reached until no blend is above it.
class Climb {
 public:
  Climb(const optimise::Problem& problem, const Measure& measure, bool largest,
        const optimise::SearchOptions& options)
      : problem_(problem), measure_(measure), largest_(largest), options_(options) {}

  Extreme run() {
    const optimise::Answer first = any_blend(problem_, options_);
    end_ = nothing_found(first, largest_);
    if (first.steps.empty()) return end_;
    end_.status = optimise::Status::feasible;
    end_.steps = first.steps;
    end_.value = measure_.at(problem_.shares(first.steps));
    optimise::Status last = optimise::Status::feasible;
    do {
      last = climb();
      // A form that is flat at its level (0 of a share that limits itself) hides what lies above.
    } while (last == optimise::Status::optimal && largest_ && lift(last));
    if (last == optimise::Status::optimal) {
      end_.status = last;
      end_.bound = end_.value;
    }
    return end_;
  }

 private:
  /// Takes a blend over when its measure is better; returns whether it was.
  bool take(const std::vector<int>& steps) {
    const double level = measure_.at(problem_.shares(steps));
    if (largest_ ? level <= end_.value : level >= end_.value) return false;
    end_.value = level;
    end_.steps = steps;
    return true;
  }

  optimise::Status climb() {
    while (!out_of_time(options_)) {
      const optimise::Form form = measure_.form(end_.value);
      optimise::SearchOptions from = options_;
      from.start = end_.steps;
      const optimise::Answer next = push(problem_, form, largest_, from);
      if (next.steps.empty()) return optimise::Status::feasible;
      const double gain = form.at(problem_.shares(next.steps)) * (largest_ ? 1 : -1);
      if (take(next.steps) && gain > beaten_by(form)) continue;
      return next.status;
    }
    return optimise::Status::feasible;
  }

  /// Asks outright for a little more; returns whether it was had.
  bool lift(optimise::Status& last) {
    const double before = end_.value;
    const double more = kRestateGrain * std::max(1.0, std::abs(before));
    optimise::Problem higher = problem_;
    higher.limits.push_back({measure_.form(before + more), 0, optimise::kInfinity, -1});
    const optimise::Answer answer = any_blend(std::move(higher), options_);
    if (answer.steps.empty()) {
      if (answer.status != optimise::Status::infeasible) last = optimise::Status::feasible;
      return false;
    }
    return take(answer.steps) && end_.value - before > more / 2;
  }

  const optimise::Problem& problem_;
  const Measure& measure_;
  bool largest_;
  const optimise::SearchOptions& options_;
  Extreme end_;
};

}  // namespace

Extreme extreme(const optimise::Problem& problem, const Measure& measure, bool largest,
                const optimise::SearchOptions& options) {
  return measure.shifts ? shifting_extreme(problem, measure, largest, options)
                        : Climb(problem, measure, largest, options).run();
}

std::vector<Reach> find_reach(const optimise::Problem& problem, const Wishes& wishes,
                              const optimise::SearchOptions& options) {
  const Wishes all = complete(problem, wishes);
  std::vector<int> ids = wish_ids(problem, wishes);
  std::vector<int> in_rules;
  for (const Rule& rule : wishes.rules) in_rules.push_back(rule.wish);

  std::vector<Reach> reaches;
  for (std::size_t m = 0; m < all.measures.size(); ++m) {
    const Measure& measure = all.measures[m];
    if (measure.wish < 0) continue;
    Reach reach;
    reach.wish = measure.wish;
    reach.measure = static_cast<int>(m);
    for (Under under : {Under::rest, Under::rules, Under::house}) {
      std::vector<int> dropped{measure.wish};
      if (under != Under::rest) {
        dropped.clear();
        for (int wish : ids) {
          const bool rule = std::find(in_rules.begin(), in_rules.end(), wish) != in_rules.end();
          if (under == Under::house || !rule || wish == measure.wish) dropped.push_back(wish);
        }
      }
      const optimise::Problem rest = without(problem, wishes, dropped);
      reach.under = under;
      reach.least = reach.most = {};
      const bool least = measure.ends != Measure::Ends::floor;
      if (least) reach.least = extreme(rest, measure, false, options);
      const bool nothing = least && reach.least.status == optimise::Status::infeasible;
      if (nothing) reach.most = reach.least;
      if (measure.ends != Measure::Ends::ceiling && !nothing)
        reach.most = extreme(rest, measure, true, options);
      const Extreme& tried = least ? reach.least : reach.most;
      if (tried.status != optimise::Status::infeasible) break;
    }
    reaches.push_back(std::move(reach));
  }
  return reaches;
}

}  // namespace barwright::explain
