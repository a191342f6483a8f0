#pragma once

#include <vector>

#include "solver/optimise/problem.hpp"

namespace barwright::testing {

/// The best blend by looking at every one: all ways to share out the steps. For a few oils and
/// steps.
struct EveryBlend {
  std::vector<int> steps;      ///< of one best blend; empty: none fits
  std::vector<double> values;  ///< per goal, each at its best under the ones before it
  long fitting = 0;            ///< how many blends fit
};
EveryBlend look_at_every_blend(const optimise::Problem& problem);

/// A small made-up problem with everything a Problem can hold: kinks of either sign in limits,
/// goals and pulls, several goals with give, pins, at most K oils, coarse numbers that make ties
/// likely.
optimise::Problem make_small_problem(unsigned long long seed);

}  // namespace barwright::testing
