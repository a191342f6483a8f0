#pragma once

#include "solver/formulate/claim.hpp"
#include "solver/optimise/search.hpp"

namespace barwright::formulate {

/// Looks on at searches whose goals are a maker's.
class GoalWatch : public optimise::Watch {
 public:
  /// How far the first goal has come; `found`: a blend is, `bounded`: the claim's bound is known.
  virtual void so_far(const Claim& claim, bool found, bool bounded) = 0;
};

}  // namespace barwright::formulate
