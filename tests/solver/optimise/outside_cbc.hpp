#pragma once

#include <vector>

#include "solver/optimise/problem.hpp"

namespace barwright::testing {

/// What CBC said of the same problem.
struct CbcAnswer {
  enum class Said { optimal, infeasible, other } said = Said::other;
  double value = 0;        ///< of its blend, recomputed by Goal::at
  std::vector<int> steps;  ///< rounded
  double seconds = 0;      ///< of the solve alone, the model already built
};

/// Puts the problem's first goal to CBC: w whole, z binary, least z <= w <= most z, sum z <= K.
/// Limits and goal must be linear, or concave in floors. Gap 0.
CbcAnswer solve_with_cbc(const optimise::Problem& problem, double time_limit = 0);

}  // namespace barwright::testing
