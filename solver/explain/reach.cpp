#include "solver/explain/reach.hpp"

#include <algorithm>
#include <cmath>

namespace barwright::solver {
namespace {

/// The last question asks for so much more, as a share of the level (or of 1, below 1).
constexpr double kRestateGrain = 1e-7;

/// Restating stops when the level is beaten by no more than the checker's own tolerance.
double beaten_by(const Form& form) { return 10 * kTolerance * form.scale(); }

Answer push(const Problem& problem, Form form, bool largest, const SearchOptions& options) {
  Problem pushed = problem;
  pushed.goals = {Goal{scaled(std::move(form), largest ? -1 : 1), {}, 0}};
  return search(pushed, options);
}

Extreme nothing_found(const Answer& answer, bool largest) {
  Extreme end;
  end.status = answer.status;
  end.bound = largest ? kInfinity : -kInfinity;
  if (end.status == Status::infeasible) end.bound = -end.bound;
  return end;
}

Extreme shifting_extreme(const Problem& problem, const Measure& measure, bool largest,
                         const SearchOptions& options) {
  const Answer answer = push(problem, measure.form(0), largest, options);
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
  Climb(const Problem& problem, const Measure& measure, bool largest, const SearchOptions& options)
      : problem_(problem), measure_(measure), largest_(largest), options_(options) {}

  Extreme run() {
    const Answer first = any_blend(problem_, options_);
    end_ = nothing_found(first, largest_);
    if (first.steps.empty()) return end_;
    end_.status = Status::feasible;
    end_.steps = first.steps;
    end_.value = measure_.at(problem_.shares(first.steps));
    Status last = Status::feasible;
    do {
      last = climb();
      // A form that is flat at its level (0 of a share that limits itself) hides what lies above.
    } while (last == Status::optimal && largest_ && lift(last));
    if (last == Status::optimal) {
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

  Status climb() {
    while (!out_of_time(options_)) {
      const Form form = measure_.form(end_.value);
      SearchOptions from = options_;
      from.start = end_.steps;
      const Answer next = push(problem_, form, largest_, from);
      if (next.steps.empty()) return Status::feasible;
      const double gain = form.at(problem_.shares(next.steps)) * (largest_ ? 1 : -1);
      if (take(next.steps) && gain > beaten_by(form)) continue;
      return next.status;
    }
    return Status::feasible;
  }

  /// Asks outright for a little more; returns whether it was had.
  bool lift(Status& last) {
    const double before = end_.value;
    const double more = kRestateGrain * std::max(1.0, std::abs(before));
    Problem higher = problem_;
    higher.limits.push_back({measure_.form(before + more), 0, kInfinity, -1});
    const Answer answer = any_blend(std::move(higher), options_);
    if (answer.steps.empty()) {
      if (answer.status != Status::infeasible) last = Status::feasible;
      return false;
    }
    return take(answer.steps) && end_.value - before > more / 2;
  }

  const Problem& problem_;
  const Measure& measure_;
  bool largest_;
  const SearchOptions& options_;
  Extreme end_;
};

}  // namespace

Extreme extreme(const Problem& problem, const Measure& measure, bool largest,
                const SearchOptions& options) {
  return measure.shifts ? shifting_extreme(problem, measure, largest, options)
                        : Climb(problem, measure, largest, options).run();
}

std::vector<Reach> find_reach(const Problem& problem, const Wishes& wishes,
                              const SearchOptions& options) {
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
      const Problem rest = without(problem, wishes, dropped);
      reach.under = under;
      reach.least = reach.most = {};
      const bool least = measure.ends != Measure::Ends::floor;
      if (least) reach.least = extreme(rest, measure, false, options);
      const bool nothing = least && reach.least.status == Status::infeasible;
      if (nothing) reach.most = reach.least;
      if (measure.ends != Measure::Ends::ceiling && !nothing)
        reach.most = extreme(rest, measure, true, options);
      const Extreme& tried = least ? reach.least : reach.most;
      if (tried.status != Status::infeasible) break;
    }
    reaches.push_back(std::move(reach));
  }
  return reaches;
}

}  // namespace barwright::solver
