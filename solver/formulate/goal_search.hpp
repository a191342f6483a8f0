#pragma once

#include "solver/formulate/formulation.hpp"
#include "solver/optimise/answer.hpp"
#include "solver/optimise/parts.hpp"

namespace barwright::formulate {

/// Returns the best blend of a formulation. As search(), and "fewest oils" besides: the least count
/// that leaves the goals before it as good as they can be, found by allowing one oil more at a
/// time, each count below it proved too few. Answer::goals has one entry per goal of the
/// formulation.
optimise::Answer search_goals(const Formulation& formulation,
                              const optimise::SearchOptions& options);

/// The same where parts stand for the formulation's problem.
optimise::Answer search_goals(const Formulation& formulation, const optimise::Parts& parts,
                              const optimise::SearchOptions& options);

}  // namespace barwright::formulate
