#pragma once

#include "solver/formulate/formulation.hpp"
#include "solver/optimise/answer.hpp"
#include "solver/optimise/parts.hpp"

namespace barwright::solver {

/// Returns the best blend of a formulation. As search(), and "fewest oils" besides: the least count
/// that leaves the goals before it as good as they can be, found by allowing one oil more at a
/// time, each count below it proved too few. Answer::goals has one entry per goal of the
/// formulation.
Answer search_goals(const Formulation& formulation, const SearchOptions& options);

/// The same where parts stand for the formulation's problem.
Answer search_goals(const Formulation& formulation, const Parts& parts,
                    const SearchOptions& options);

}  // namespace barwright::solver
