#include "solver/checker.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numeric>

namespace barwright::solver {
namespace {

// Every comparison is written so that a NaN counts as a violation.
void check_limits(const Problem& problem, std::span<const double> x, std::vector<Violation>& out) {
  for (std::size_t r = 0; r < problem.limits.size(); ++r) {
    const Limit& limit = problem.limits[r];
    const double value = limit.form.at(x);
    const double slack = kTolerance * limit.form.scale();
    if (!(value >= limit.low - slack))
      out.push_back(
          {int(r), limit.low - value,
           fmt::format("limit {} is {:.9g}, below its floor {:.9g}", r, value, limit.low)});
    if (!(value <= limit.high + slack))
      out.push_back(
          {int(r), value - limit.high,
           fmt::format("limit {} is {:.9g}, above its ceiling {:.9g}", r, value, limit.high)});
  }
}

}  // namespace

std::vector<Violation> check_shares(const Problem& problem, std::span<const double> x) {
  std::vector<Violation> out;
  if (x.size() != problem.oils.size()) {
    out.push_back(
        {-1, kInfinity, fmt::format("{} shares for {} oils", x.size(), problem.oils.size())});
    return out;
  }
  int used = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const OilBounds& oil = problem.oils[i];
    const double least = double(oil.least) / problem.steps;
    const double most = double(oil.most) / problem.steps;
    if (std::abs(x[i]) <= kTolerance) {
      if (oil.must) out.push_back({-1, least, fmt::format("oil {} must be in and is out", i)});
      continue;
    }
    ++used;
    if (!(x[i] >= least - kTolerance))
      out.push_back(
          {-1, least - x[i],
           fmt::format("oil {} has share {:.9g}, below its least {:.9g}", i, x[i], least)});
    if (!(x[i] <= most + kTolerance))
      out.push_back({-1, x[i] - most,
                     fmt::format("oil {} has share {:.9g}, above its most {:.9g}", i, x[i], most)});
  }
  const double sum = std::accumulate(x.begin(), x.end(), 0.0);
  if (!(std::abs(sum - 1) <= kTolerance))
    out.push_back({-1, std::abs(sum - 1), fmt::format("the shares add up to {:.12g}, not 1", sum)});
  if (problem.most_oils > 0 && used > problem.most_oils)
    out.push_back({-1, double(used - problem.most_oils),
                   fmt::format("{} oils where at most {} may be", used, problem.most_oils)});
  check_limits(problem, x, out);
  return out;
}

std::vector<Violation> check_steps(const Problem& problem, std::span<const int> steps) {
  std::vector<Violation> out;
  if (steps.size() != problem.oils.size()) {
    out.push_back(
        {-1, kInfinity,
         fmt::format("{} counts of steps for {} oils", steps.size(), problem.oils.size())});
    return out;
  }
  long sum = 0;
  int used = 0;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const OilBounds& oil = problem.oils[i];
    sum += steps[i];
    if (steps[i] != 0) ++used;
    if (steps[i] == 0 ? oil.must : steps[i] < oil.least || steps[i] > oil.most)
      out.push_back({-1, 0,
                     fmt::format("oil {} has {} steps; allowed {} to {}{}", i, steps[i], oil.least,
                                 oil.most, oil.must ? "" : ", or none")});
  }
  if (sum != problem.steps)
    out.push_back({-1, double(std::abs(sum - problem.steps)),
                   fmt::format("the steps add up to {}, not {}", sum, problem.steps)});
  if (problem.most_oils > 0 && used > problem.most_oils)
    out.push_back({-1, double(used - problem.most_oils),
                   fmt::format("{} oils where at most {} may be", used, problem.most_oils)});
  check_limits(problem, problem.shares(steps), out);
  return out;
}

}  // namespace barwright::solver
