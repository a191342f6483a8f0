#pragma once

#include <vector>

#include "solver/problem.hpp"

namespace barwright::solver::testing {

/// The best whole-step blend of a curved first goal, from outside the search: every set of at most
/// K oils in turn; NLopt's best shares of the set, or, where those beat the best blend known, every
/// blend of the set in whole steps. Limits must be linear.
struct SetsAnswer {
  std::vector<int> steps;
  double value = kInfinity;
  long sets = 0;    ///< looked at
  long opened = 0;  ///< looked at step by step
};
SetsAnswer look_at_every_set(const Problem& problem, double known = kInfinity);

}  // namespace barwright::solver::testing
