#include "tests/solver/optimise/outside_enumeration.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "solver/optimise/checker.hpp"
#include "tests/solver/optimise/instances.hpp"

namespace barwright::testing {

EveryBlend look_at_every_blend(const optimise::Problem& problem) {
  EveryBlend out;
  std::vector<std::vector<int>> fitting;
  std::vector<int> w(problem.oils.size(), 0);
  const std::function<void(std::size_t, int)> walk = [&](std::size_t i, int left) {
    if (i + 1 == w.size()) {
      w[i] = left;
      if (optimise::check_steps(problem, w).empty()) fitting.push_back(w);
      return;
    }
    for (int v = 0; v <= left; ++v) {
      w[i] = v;
      walk(i + 1, left - v);
    }
  };
  walk(0, problem.steps);
  out.fitting = long(fitting.size());
  for (const optimise::Goal& goal : problem.goals) {
    if (fitting.empty()) break;
    std::vector<double> values;
    for (const auto& blend : fitting) values.push_back(goal.at(problem.shares(blend)));
    const double best = *std::min_element(values.begin(), values.end());
    out.values.push_back(best);
    std::vector<std::vector<int>> kept;
    const double most = best + goal.give + optimise::kTolerance * std::max(1.0, std::abs(best));
    for (std::size_t b = 0; b < fitting.size(); ++b)
      if (values[b] <= most) kept.push_back(fitting[b]);
    out.steps =
        fitting[std::size_t(std::min_element(values.begin(), values.end()) - values.begin())];
    fitting = std::move(kept);
  }
  if (problem.goals.empty() && !fitting.empty()) out.steps = fitting.front();
  return out;
}

optimise::Problem make_small_problem(unsigned long long seed) {
  Uniform draw(seed * 0x9E3779B97F4A7C15ULL + 77);
  optimise::Problem problem;
  const int n = draw.whole(2, 5);
  problem.steps = n <= 3 ? draw.whole(5, 40) : draw.whole(4, 14);
  problem.most_oils = draw() < 0.7 ? draw.whole(1, n) : 0;
  for (int i = 0; i < n; ++i) {
    optimise::OilBounds oil;
    oil.least = draw.whole(1, std::max(1, problem.steps / 4));
    oil.most = draw() < 0.1 ? 0 : draw.whole(1, problem.steps);
    oil.must = draw() < 0.1;
    problem.oils.push_back(oil);
  }
  const bool coarse = draw() < 0.5;  // small whole numbers: many equal values
  const auto number = [&](double from, double to) {
    const double v = draw(from, to);
    return coarse ? std::round(v) : v;
  };
  const auto vector = [&](double from, double to) {
    std::vector<double> v;
    for (int i = 0; i < n; ++i) v.push_back(number(from, to));
    return v;
  };
  const auto form = [&](double kinks) {
    optimise::Form f{number(-2, 2), vector(-10, 10), {}};
    while (draw() < kinks && f.kinks.size() < 3)
      f.kinks.push_back({number(-5, 5), vector(-5, 10), number(-1, 6)});
    return f;
  };
  // A blend that mostly fits, to set the ranges around.
  std::vector<int> w(std::size_t(n), 0);
  for (int s = 0; s < problem.steps; ++s) ++w[std::size_t(draw.whole(0, n - 1))];
  const auto x = problem.shares(w);
  for (int r = draw.whole(0, 3); r > 0; --r) {
    optimise::Limit limit{form(0.4), -optimise::kInfinity, optimise::kInfinity, r};
    const double at = limit.form.at(x);
    if (draw() < 0.7) limit.low = at - number(0, 4);
    if (draw() < 0.7) limit.high = at + number(0, 4);
    problem.limits.push_back(std::move(limit));
  }
  for (int g = draw.whole(0, 3); g > 0; --g) {
    optimise::Goal goal{form(0.3), {}, draw() < 0.5 ? 0 : number(0, 3)};
    while (draw() < 0.5 && goal.pulls.size() < 3)
      goal.pulls.push_back({form(0.3), number(-5, 5), number(0, 2)});
    problem.goals.push_back(std::move(goal));
  }
  return problem;
}

}  // namespace barwright::testing
