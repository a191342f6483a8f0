#include "solver/explain/alternatives.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "solver/explain/relax_wish.hpp"

namespace barwright::explain {
namespace {

Alternative compared(const optimise::Problem& problem, optimise::Answer answer,
                     std::span<const Alternative> before, std::span<const View> views) {
  Alternative a;
  a.answer = std::move(answer);
  const std::vector<int>& first = before.empty() ? a.answer.steps : before[0].answer.steps;
  for (std::size_t i = 0; i < first.size(); ++i) a.moved.push_back(a.answer.steps[i] - first[i]);
  a.distance = distance_between(problem, first, a.answer.steps);
  a.nearest = a.distance;
  for (const Alternative& b : before) {
    a.nearest = std::min(a.nearest, distance_between(problem, b.answer.steps, a.answer.steps));
  }
  const std::vector<double> x = problem.shares(a.answer.steps);
  for (const View& view : views) a.values.push_back(view.form.at(x));
  return a;
}

void name_the_leaders(std::vector<Alternative>& found, std::span<const View> views) {
  if (found.size() < 2) return;
  for (std::size_t v = 0; v < views.size(); ++v) {
    const double sign = views[v].more_is_better ? 1 : -1;
    for (std::size_t k = 0; k < found.size(); ++k) {
      bool leads = true;
      for (std::size_t j = 0; j < found.size(); ++j) {
        const double lead = sign * (found[k].values[v] - found[j].values[v]);
        if (j != k && !(lead > 0 && lead >= views[v].noticeable)) leads = false;
      }
      if (leads) found[k].best_at.push_back(static_cast<int>(v));
    }
  }
}

}  // namespace

optimise::Limit keep_away(const optimise::Problem& problem, std::span<const int> from,
                          double distance) {
  // max(0, a - x) = a - min(x, a), so the sum of min(x_i, a_i) may be at most 1 - distance. In
  // whole steps the distance is whole too: rounding it up cuts off nothing and tightens the search.
  const double whole = std::ceil(distance * problem.steps - 1e-9);
  optimise::Limit limit;
  limit.form.linear.assign(problem.oils.size(), 0);
  for (std::size_t i = 0; i < from.size(); ++i) {
    if (from[i] == 0) continue;
    const double share = static_cast<double>(from[i]) / problem.steps;
    if (problem.oils[i].most <= from[i]) {
      limit.form.linear[i] = 1;  // min(x, a) is x: it cannot rise above a
      continue;
    }
    optimise::Kink kink;
    kink.weight = 1;
    kink.slope.assign(problem.oils.size(), 0);
    kink.slope[i] = 1;
    kink.cap = share;
    limit.form.kinks.push_back(std::move(kink));
  }
  limit.high = (problem.steps - whole) / problem.steps;
  return limit;
}

double distance_between(const optimise::Problem& problem, std::span<const int> a,
                        std::span<const int> b) {
  int differing = 0;
  for (std::size_t i = 0; i < a.size(); ++i) differing += std::abs(a[i] - b[i]);
  return static_cast<double>(differing) / 2 / problem.steps;
}

Alternatives find_alternatives(const optimise::Problem& problem, int count, double distance,
                               std::span<const View> views,
                               const optimise::SearchOptions& options) {
  Alternatives result;
  optimise::Problem apart = problem;
  for (int k = 0; k <= count; ++k) {
    optimise::Answer answer = optimise::search(apart, options);
    if (answer.steps.empty()) {
      result.exhausted = answer.status == optimise::Status::infeasible;
      result.proved = result.proved && result.exhausted;
      break;
    }
    result.proved = result.proved && answer.status == optimise::Status::optimal;
    result.found.push_back(compared(problem, std::move(answer), result.found, views));
    apart.limits.push_back(keep_away(problem, result.found.back().answer.steps, distance));
  }
  name_the_leaders(result.found, views);
  return result;
}

}  // namespace barwright::explain
