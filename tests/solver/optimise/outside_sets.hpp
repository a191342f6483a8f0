#pragma once

#include <vector>

#include "solver/optimise/problem.hpp"

namespace barwright::testing {

/// The best whole-step blend of a curved first goal, from outside the search: every set of at most
/// K oils in turn, best lower bound first. A set is left unseen only by one of the first three
/// arguments counted here, each plain arithmetic on that set alone. In all others NLopt is run and,
/// so that its word is not needed either, every blend in whole steps is looked at.
struct SetsAnswer {
  std::vector<int> steps;
  double value = optimise::kInfinity;
  long sets = 0;          ///< all there are
  long sum = 0;           ///< no whole steps within stock and least share add up
  long out_of_reach = 0;  ///< one limit, taken alone, cannot be met by any shares of the set
  long bounded = 0;       ///< a tangent of the goal lies above the best value everywhere in the set
  long minimised = 0;     ///< NLopt was run, and the set walked through in whole steps
  long unfit = 0;         ///< ... and what NLopt left does not fit
  long above = 0;         ///< ... or its best shares are no better than the best blend known
  long misled = 0;        ///< ... though the walk then found a better one: NLopt was wrong
};

/// Limits must be linear, and at most 8 oils in a set. Throws std::invalid_argument otherwise.
SetsAnswer look_at_every_set(const optimise::Problem& problem);

}  // namespace barwright::testing
