#include "solver/optimise/checker.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numeric>

namespace barwright::optimise {
namespace {

// One judge for those who want every violation in words and for the search, which asks a million
// times and only whether: report(limit, by, words) is told each violation and returns whether to go
// on; the words are made only when asked for. Every comparison is written so that a NaN counts as a
// violation.

template <typename Report>
bool judge_limits(const Problem& problem, std::span<const double> x, const Report& report) {
  for (std::size_t r = 0; r < problem.limits.size(); ++r) {
    const Limit& limit = problem.limits[r];
    const double value = limit.form.at(x);
    if (value >= limit.low && value <= limit.high) continue;
    const double slack = kTolerance * limit.form.scale();
    if (!(value >= limit.low - slack) && !report(int(r), limit.low - value, [&] {
          return fmt::format("limit {} is {:.9g}, below its floor {:.9g}", r, value, limit.low);
        }))
      return false;
    if (!(value <= limit.high + slack) && !report(int(r), value - limit.high, [&] {
          return fmt::format("limit {} is {:.9g}, above its ceiling {:.9g}", r, value, limit.high);
        }))
      return false;
  }
  return true;
}

template <typename Report>
bool judge_count(const Problem& problem, int used, const Report& report) {
  if (problem.most_oils <= 0 || used <= problem.most_oils) return true;
  return report(-1, double(used - problem.most_oils), [&] {
    return fmt::format("{} oils where at most {} may be", used, problem.most_oils);
  });
}

template <typename Report>
bool judge_steps(const Problem& problem, std::span<const int> steps, const Report& report) {
  if (steps.size() != problem.oils.size()) {
    report(-1, kInfinity, [&] {
      return fmt::format("{} counts of steps for {} oils", steps.size(), problem.oils.size());
    });
    return false;
  }
  long sum = 0;
  int used = 0;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const OilBounds& oil = problem.oils[i];
    sum += steps[i];
    if (steps[i] != 0) ++used;
    const bool kept = steps[i] == 0 ? !oil.must : steps[i] >= oil.least && steps[i] <= oil.most;
    if (!kept && !report(-1, 0, [&] {
          return fmt::format("oil {} has {} steps; allowed {} to {}{}", i, steps[i], oil.least,
                             oil.most, oil.must ? "" : ", or none");
        }))
      return false;
  }
  if (sum != problem.steps && !report(-1, double(std::abs(sum - problem.steps)), [&] {
        return fmt::format("the steps add up to {}, not {}", sum, problem.steps);
      }))
    return false;
  return judge_count(problem, used, report) && judge_limits(problem, problem.shares(steps), report);
}

template <typename Report>
bool judge_shares(const Problem& problem, std::span<const double> x, const Report& report) {
  if (x.size() != problem.oils.size()) {
    report(-1, kInfinity,
           [&] { return fmt::format("{} shares for {} oils", x.size(), problem.oils.size()); });
    return false;
  }
  int used = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const OilBounds& oil = problem.oils[i];
    const double least = double(oil.least) / problem.steps;
    const double most = double(oil.most) / problem.steps;
    if (std::abs(x[i]) <= kTolerance) {
      if (oil.must &&
          !report(-1, least, [&] { return fmt::format("oil {} must be in and is out", i); }))
        return false;
      continue;
    }
    ++used;
    if (!(x[i] >= least - kTolerance) && !report(-1, least - x[i], [&] {
          return fmt::format("oil {} has share {:.9g}, below its least {:.9g}", i, x[i], least);
        }))
      return false;
    if (!(x[i] <= most + kTolerance) && !report(-1, x[i] - most, [&] {
          return fmt::format("oil {} has share {:.9g}, above its most {:.9g}", i, x[i], most);
        }))
      return false;
  }
  const double sum = std::accumulate(x.begin(), x.end(), 0.0);
  if (!(std::abs(sum - 1) <= kTolerance) && !report(-1, std::abs(sum - 1), [&] {
        return fmt::format("the shares add up to {:.12g}, not 1", sum);
      }))
    return false;
  return judge_count(problem, used, report) && judge_limits(problem, x, report);
}

auto into(std::vector<Violation>& out) {
  return [&out](int limit, double by, const auto& words) {
    out.push_back({limit, by, words()});
    return true;
  };
}

}  // namespace

std::vector<Violation> check_shares(const Problem& problem, std::span<const double> x) {
  std::vector<Violation> out;
  judge_shares(problem, x, into(out));
  return out;
}

std::vector<Violation> check_steps(const Problem& problem, std::span<const int> steps) {
  std::vector<Violation> out;
  judge_steps(problem, steps, into(out));
  return out;
}

bool fits(const Problem& problem, std::span<const int> steps) {
  return judge_steps(problem, steps, [](int, double, const auto&) { return false; });
}

std::uint64_t work_of_checking(const Problem& problem) {
  std::uint64_t all = problem.oils.size();
  for (const Limit& limit : problem.limits) {
    all += problem.oils.size() * (1 + limit.form.kinks.size());
    for (const Guard& guard : limit.form.guards) all += guard.part->work();
  }
  return all;
}

}  // namespace barwright::optimise
