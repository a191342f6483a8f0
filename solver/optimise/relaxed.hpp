#pragma once

#include <vector>

#include "solver/optimise/problem.hpp"
#include "solver/optimise/search.hpp"

namespace barwright::optimise {

/// A problem with its whole steps, least shares and counts let go.
struct Relaxed {
  bool empty = false;         ///< proved: not even so does a blend fit
  double bound = -kInfinity;  ///< proved: no blend has a lower goal
  std::vector<double> point;  ///< steps per oil, where the bound was found; empty: none was
};

/// Returns the relaxation of a linear goal over a problem's limits; its goals are not looked at.
/// The bound is recomputed from multipliers (bound.hpp), so a failed solve can only loosen it.
/// What it takes is charged to the allowance, where there is one; it is not stopped by it.
Relaxed relaxed(const Problem& problem, const Goal& goal, Allowance* allowance = nullptr);

}  // namespace barwright::optimise
