#pragma once

// One set of oils, alone: what the enumeration of outside_sets.hpp can say of it without NLopt.

#include <algorithm>
#include <array>
#include <vector>

#include "solver/optimise/problem.hpp"

namespace barwright::testing {

inline constexpr int kMost = 8;          // oils in a set
inline constexpr double kMargin = 1e-6;  // far above rounding, and above the checker's tolerance

using Point = std::array<double, kMost>;

struct Interval {
  double low, high;
};

struct Range {
  Point a;
  double low, high, scale;
};

struct Square {
  Point g;
  double miss;  // of the constant: g . x + miss is the distance to the point
  double weight;
};

// The problem over one set of oils, in shares.
struct Set {
  int n = 0, steps = 0;
  Point low, high;
  Point linear;
  double constant = 0;
  std::vector<Square> squares;
  std::vector<Range> ranges;

  double at(const double* x, double* gradient) const {
    double value = constant;
    for (int i = 0; i < n; ++i) value += linear[std::size_t(i)] * x[i];
    if (gradient) std::copy_n(linear.begin(), n, gradient);
    for (const Square& square : squares) {
      double miss = square.miss;
      for (int i = 0; i < n; ++i) miss += square.g[std::size_t(i)] * x[i];
      value += square.weight * miss * miss;
      if (!gradient) continue;
      for (int i = 0; i < n; ++i)
        gradient[i] += 2 * square.weight * miss * square.g[std::size_t(i)];
    }
    return value;
  }
};

/// Returns the problem over these oils, at most kMost.
Set over(const optimise::Problem& problem, const std::vector<int>& oils);

/// Returns all that a . x can be for low <= x <= high with the sum of x as given, over n oils.
Interval reach(const double* a, const double* low, const double* high, int n, double sum);

/// Returns whether one limit, taken alone, cannot be met by any shares of the set.
bool out_of_reach(const Set& set);

/// Returns a bound below the goal over the set; leaves a point where it is nearly least in `at`.
double lower_bound(const Set& set, Point& at);

}  // namespace barwright::testing
