#include "tests/solver/optimise/outside_set.hpp"

#include <cmath>

namespace barwright::testing {

Set over(const optimise::Problem& problem, const std::vector<int>& oils) {
  Set set;
  set.n = int(oils.size());
  set.steps = problem.steps;
  const auto pick = [&](const optimise::Form& form) {
    Point a{};
    for (std::size_t i = 0; i < oils.size(); ++i) a[i] = form.linear[std::size_t(oils[i])];
    return a;
  };
  for (std::size_t i = 0; i < oils.size(); ++i) {
    set.low[i] = double(problem.oils[std::size_t(oils[i])].least) / problem.steps;
    set.high[i] = double(problem.oils[std::size_t(oils[i])].most) / problem.steps;
  }
  const optimise::Goal& goal = problem.goals[0];
  set.linear = pick(goal.form);
  set.constant = goal.form.constant;
  for (const optimise::Pull& pull : goal.pulls)
    set.squares.push_back({pick(pull.form), pull.form.constant - pull.point, pull.weight});
  for (const optimise::Limit& limit : problem.limits)
    set.ranges.push_back({pick(limit.form), limit.low - limit.form.constant,
                          limit.high - limit.form.constant, limit.form.scale()});
  return set;
}

// All that a . x can be for low <= x <= high with the sum of x as given, over n oils from `from`.
Interval reach(const double* a, const double* low, const double* high, int n, double sum) {
  std::array<int, kMost> order;
  double base = 0, left = sum;
  for (int i = 0; i < n; ++i) {
    int k = i;
    for (; k > 0 && a[order[std::size_t(k - 1)]] > a[i]; --k)
      order[std::size_t(k)] = order[std::size_t(k - 1)];
    order[std::size_t(k)] = i;
    base += a[i] * low[i];
    left -= low[i];
  }
  Interval out{base, base};
  double rest = left;
  for (int k = 0; k < n && rest > 0; ++k) {
    const int i = order[std::size_t(k)];
    const double more = std::min(rest, high[i] - low[i]);
    out.low += a[i] * more;
    rest -= more;
  }
  rest = left;
  for (int k = n - 1; k >= 0 && rest > 0; --k) {
    const int i = order[std::size_t(k)];
    const double more = std::min(rest, high[i] - low[i]);
    out.high += a[i] * more;
    rest -= more;
  }
  return out;
}

bool out_of_reach(const Set& set) {
  return std::any_of(set.ranges.begin(), set.ranges.end(), [&](const Range& range) {
    const Interval can = reach(range.a.data(), set.low.data(), set.high.data(), set.n, 1);
    return can.low > range.high + kMargin * range.scale ||
           can.high < range.low - kMargin * range.scale;
  });
}

// A convex goal lies above its tangent at ANY point c: at(x) >= at(c) + gradient(c) . (x - c), and
// the least of the right side over the set is one reach(). So c need only be good, not exact: it is
// the least of the goal where the shares add up, by Cholesky, with shares outside their bounds
// held at them one after the other. Leaves c in `at`.
double lower_bound(const Set& set, Point& at) {
  const int n = set.n;
  std::array<int, kMost> free;
  std::array<char, kMost> held{};
  int count = n;
  for (int i = 0; i < n; ++i) {
    free[std::size_t(i)] = i;
    at[std::size_t(i)] = set.low[std::size_t(i)];
  }
  Point gradient;
  while (count > 0) {
    // Start: the held shares at their bounds, the free ones share the rest.
    double rest = 1;
    count = 0;
    for (int i = 0; i < n; ++i) {
      if (held[std::size_t(i)])
        rest -= at[std::size_t(i)];
      else
        free[std::size_t(count++)] = i;
    }
    if (count == 0) break;
    for (int k = 0; k < count; ++k) at[std::size_t(free[std::size_t(k)])] = rest / count;
    if (count == 1) break;
    set.at(at.data(), gradient.data());
    // Moves along e_k - e_last: a system of count - 1.
    const int m = count - 1, last = free[std::size_t(m)];
    double h[kMost][kMost] = {}, r[kMost];
    double largest = 0;
    for (const Square& square : set.squares) {
      double d[kMost];
      for (int k = 0; k < m; ++k)
        d[k] = square.g[std::size_t(free[std::size_t(k)])] - square.g[std::size_t(last)];
      for (int i = 0; i < m; ++i)
        for (int j = 0; j <= i; ++j) h[i][j] += 2 * square.weight * d[i] * d[j];
    }
    for (int i = 0; i < m; ++i) {
      largest = std::max(largest, h[i][i]);
      r[i] = gradient[std::size_t(last)] - gradient[std::size_t(free[std::size_t(i)])];
    }
    for (int i = 0; i < m; ++i) h[i][i] += 1e-9 * largest + 1e-300;
    for (int i = 0; i < m; ++i) {
      for (int j = 0; j <= i; ++j) {
        double sum = h[i][j];
        for (int k = 0; k < j; ++k) sum -= h[i][k] * h[j][k];
        h[i][j] = i == j ? std::sqrt(std::max(sum, 1e-300)) : sum / h[j][j];
      }
      for (int k = 0; k < i; ++k) r[i] -= h[i][k] * r[k];
      r[i] /= h[i][i];
    }
    for (int i = m; i-- > 0;) {
      for (int k = i + 1; k < m; ++k) r[i] -= h[k][i] * r[k];
      r[i] /= h[i][i];
    }
    for (int i = 0; i < m; ++i) {
      at[std::size_t(free[std::size_t(i)])] += r[i];
      at[std::size_t(last)] -= r[i];
    }
    // Hold the share that is furthest outside.
    int worst = -1;
    double most = 1e-12;
    for (int k = 0; k < count; ++k) {
      const std::size_t i = std::size_t(free[std::size_t(k)]);
      const double by = std::max(set.low[i] - at[i], at[i] - set.high[i]);
      if (by > most) {
        most = by;
        worst = int(i);
      }
    }
    if (worst < 0) break;
    held[std::size_t(worst)] = 1;
    at[std::size_t(worst)] = at[std::size_t(worst)] < set.low[std::size_t(worst)]
                                 ? set.low[std::size_t(worst)]
                                 : set.high[std::size_t(worst)];
  }
  double bound = set.at(at.data(), gradient.data());
  for (int i = 0; i < n; ++i) bound -= gradient[std::size_t(i)] * at[std::size_t(i)];
  bound += reach(gradient.data(), set.low.data(), set.high.data(), n, 1).low;
  return std::isfinite(bound) ? bound : -optimise::kInfinity;
}

}  // namespace barwright::testing
