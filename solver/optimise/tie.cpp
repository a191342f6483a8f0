#include "solver/optimise/tie.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace barwright::optimise {
namespace {

bool same(const Form& form, std::size_t a, std::size_t b) {
  return form.linear[a] == form.linear[b] &&
         std::all_of(form.kinks.begin(), form.kinks.end(),
                     [&](const Kink& kink) { return kink.slope[a] == kink.slope[b]; }) &&
         std::all_of(form.guards.begin(), form.guards.end(),
                     [&](const Guard& guard) { return guard.part->same(a, b); });
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

std::vector<int> followers(const Problem& problem) {
  const int n = int(problem.oils.size());
  std::vector<int> next(std::size_t(n), -1);
  std::vector<char> taken(std::size_t(n), 0);
  for (int first = 0; first < n; ++first) {
    if (taken[std::size_t(first)] || problem.oils[std::size_t(first)].must) continue;
    std::vector<int> lots;
    for (int i = first; i < n; ++i)
      if (!taken[std::size_t(i)] && !problem.oils[std::size_t(i)].must &&
          (i == first || interchangeable(problem, first, i))) {
        lots.push_back(i);
        taken[std::size_t(i)] = 1;
      }
    std::stable_sort(lots.begin(), lots.end(), [&](int a, int b) {
      return problem.oils[std::size_t(a)].most > problem.oils[std::size_t(b)].most;
    });
    int leader = lots[0];
    for (std::size_t k = 1; k < lots.size(); ++k) {
      const OilBounds &a = problem.oils[std::size_t(leader)],
                      &b = problem.oils[std::size_t(lots[k])];
      if (a.least > b.least) continue;
      next[std::size_t(leader)] = lots[k];
      leader = lots[k];
    }
  }
  return next;
}

double granule(const Problem& problem, const Goal& goal) {
  if (!goal.pulls.empty() || !goal.form.is_linear() || goal.form.linear.empty()) return 0;
  const std::vector<double>& c = goal.form.linear;
  for (const double unit : {1.0, 10.0, 100.0, 1000.0}) {
    long divisor = 0;
    bool whole = true;
    for (double v : c) {
      const double moved = (v - c[0]) * unit;
      if (!(std::abs(moved) < 1e9) || std::abs(moved - std::round(moved)) > 1e-7) {
        whole = false;
        break;
      }
      divisor = std::gcd(divisor, std::lround(moved));
    }
    if (whole) return double(divisor) / unit / problem.steps;
  }
  return 0;
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

}  // namespace barwright::optimise
