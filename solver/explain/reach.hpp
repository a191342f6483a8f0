#pragma once

#include <vector>

#include "solver/explain/relax_wish.hpp"

namespace barwright::explain {

/// One end of what a measure can reach.
struct Extreme {
  optimise::Status status =
      optimise::Status::undecided;  ///< optimal: nothing lies beyond `value`, proved
  double value = 0;                 ///< the maker's unit; without a blend meaningless
  double bound = 0;                 ///< nothing lies beyond this; infinite when not known
  std::vector<int> steps;           ///< the blend that reaches it
  bool proved() const { return status == optimise::Status::optimal; }
};

/// Returns the largest (or least) value a measure can have in the problem, proved or "so far".
/// A measure that does not shift is raised by Dinkelbach's iteration: restate it at the level
/// reached until nothing is above; the last search is the proof.
Extreme extreme(const optimise::Problem& problem, const Measure& measure, bool largest,
                const optimise::SearchOptions& options = {});

/// What was left standing while a measure was pushed to its ends.
enum class Under {
  rest,   ///< every other wish
  rules,  ///< the others collide by themselves: only what is in Wishes::rules and the house
  house,  ///< those collide too: only the limits of the house
};

struct Reach {
  int wish = -1;
  int measure = -1;  ///< index into complete(problem, wishes).measures
  Under under = Under::rest;
  Extreme least;  ///< not looked for when the measure keeps a floor only
  Extreme most;   ///< not looked for when the measure keeps a ceiling only
};

/// Returns, measure by measure, what can be reached when that wish is dropped and the others stay.
/// An end that was not proved is a value reached so far; one of status infeasible says that even
/// the limits of the house leave no blend.
std::vector<Reach> find_reach(const optimise::Problem& problem, const Wishes& wishes,
                              const optimise::SearchOptions& options = {});

}  // namespace barwright::explain
