#include "solver/reach.hpp"

#include <algorithm>

#include "solver/blend_forms.hpp"

namespace barwright::solver {
namespace {

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

Extreme restated_extreme(const Problem& problem, const Measure& measure, bool largest,
                         const SearchOptions& options) {
  const Answer first = any_blend(problem, options);
  Extreme end = nothing_found(first, largest);
  if (first.steps.empty()) return end;
  end.status = Status::feasible;
  end.steps = first.steps;
  end.value = measure.at(problem.shares(first.steps));
  while (!out_of_time(options)) {
    const Form form = measure.form(end.value);
    const Answer next = push(problem, form, largest, options);
    if (next.steps.empty()) return end;
    const std::vector<double> x = problem.shares(next.steps);
    const double level = measure.at(x);
    const bool better = largest ? level > end.value : level < end.value;
    const double gain = form.at(x) * (largest ? 1 : -1);
    if (better) {
      end.value = level;
      end.steps = next.steps;
    }
    if (better && gain > beaten_by(form)) continue;
    if (next.status == Status::optimal) {
      end.status = Status::optimal;
      end.bound = end.value;
    }
    return end;
  }
  return end;
}

}  // namespace

Extreme extreme(const Problem& problem, const Measure& measure, bool largest,
                const SearchOptions& options) {
  return measure.shifts ? shifting_extreme(problem, measure, largest, options)
                        : restated_extreme(problem, measure, largest, options);
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
      reach.least = extreme(rest, measure, false, options);
      reach.most = reach.least.status == Status::infeasible ? reach.least
                                                            : extreme(rest, measure, true, options);
      if (reach.least.status != Status::infeasible) break;
    }
    reaches.push_back(std::move(reach));
  }
  return reaches;
}

}  // namespace barwright::solver
