#pragma once

// Weak duality in our own arithmetic. For ANY multipliers y, and d = c - A'y,
//
//   c.v = d.v + y.(A v) >= sum_j min over [low_j, high_j] of d_j v_j
//                        + sum_r min over [row_low_r, row_high_r] of y_r s_r,
//
// so a failed or unfinished solve can only loosen the bound. What rounding could have added is
// taken off again: every partial sum of k terms errs by less than k eps sum |terms|. The same
// inequality with c = 0 is a proof of emptiness when its right side is positive. A convex square
// lies above each of its tangents: w (t - p)^2 >= s t - s p - s^2 / (4 w) for ANY slope s; so a
// curved goal is bounded by the linear one of its tangent at the engine's point.

#include <span>
#include <vector>

#include "solver/optimise/relaxation/node.hpp"

namespace barwright::optimise {

struct Bound {
  double value = -kInfinity;    ///< no blend of the region is below it
  std::vector<double> reduced;  ///< d per column
  double doubt = 0;             ///< what rounding may have added to any |d|
  std::vector<double> factor;   ///< scratch, as is the next
  std::vector<const double*> row;
};

/// constant + cost . v, with the sizes its rounding is judged by.
struct LinearGoal {
  double constant = 0;
  double constant_size = 0;       ///< sum of the absolute terms behind the constant
  std::vector<double> cost;       ///< empty: 0
  double cost_size = 0;           ///< the largest sum of absolute terms behind a cost
  std::vector<std::size_t> used;  ///< scratch, as are the next two
  std::vector<double> factor;
  std::vector<const double*> row;
};

/// Bounds the goal over the region from multipliers y (one per row).
void bound_linear(const Region& region, const LinearGoal& goal, std::span<const double> y,
                  Bound& out);

/// Replaces the relaxation's goal by its tangent at v.
void tangent(const Relaxation& relaxation, std::span<const double> v, LinearGoal& out);

/// Whether the multipliers y prove that the region holds no blend.
bool proves_empty(const Region& region, std::span<const double> y, Bound& scratch);

}  // namespace barwright::optimise
