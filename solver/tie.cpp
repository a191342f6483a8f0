#include "solver/tie.hpp"

#include <algorithm>

namespace barwright::solver {
namespace {

bool same(const Form& form, std::size_t a, std::size_t b) {
  return form.linear[a] == form.linear[b] &&
         std::all_of(form.kinks.begin(), form.kinks.end(),
                     [&](const Kink& kink) { return kink.slope[a] == kink.slope[b]; });
}

}  // namespace

bool interchangeable(const Problem& problem, int first, int second) {
  const std::size_t a = std::size_t(first), b = std::size_t(second);
  for (const Goal& goal : problem.goals) {
    if (!same(goal.form, a, b)) return false;
    for (const Pull& pull : goal.pulls)
      if (!same(pull.form, a, b)) return false;
  }
  return std::all_of(problem.limits.begin(), problem.limits.end(),
                     [&](const Limit& limit) { return same(limit.form, a, b); });
}

std::vector<int> prefer_earlier(const Problem& problem, std::vector<int> steps,
                                const std::function<bool(std::span<const int>)>& accept) {
  for (std::size_t late = steps.size(); late-- > 1;) {
    for (std::size_t early = 0; early < late && steps[late] > 0; ++early) {
      if (!interchangeable(problem, int(early), int(late))) continue;
      const OilBounds& oil = problem.oils[early];
      const int keep = problem.oils[late].least;
      for (const int moved : {steps[late], std::min(steps[late] - keep, oil.most - steps[early])}) {
        if (moved <= 0 || steps[early] + moved > oil.most || steps[early] + moved < oil.least)
          continue;
        std::vector<int> next = steps;
        next[late] -= moved;
        next[early] += moved;
        if (!accept(next)) continue;
        steps = std::move(next);
        break;
      }
    }
  }
  return steps;
}

}  // namespace barwright::solver
