#pragma once

#include <span>
#include <vector>

#include "solver/formulate/candidate.hpp"
#include "solver/formulate/known_bar.hpp"
#include "solver/optimise/problem.hpp"
#include "targets/model/model.hpp"

namespace barwright::formulate {

/// Returns the terms of targets::feel_terms() over oil shares, in units of which 1 is just noticed.
std::vector<optimise::Form> feel_over_oils(const targets::PropertyModel& model,
                                           const targets::BarSettings& settings,
                                           std::span<const Candidate> candidates);

/// Returns the terms' values for a known bar, one per term.
std::vector<double> feel_points(const targets::PropertyModel& model, const KnownBar& bar);

/// Returns the goal of least gap in feel, squared: each term pulled to its point by its own weight,
/// times `emphasis` where given (one per term). Its scale is the gap itself. Gives way to later
/// goals by kFeelTie.
optimise::Goal feel_goal(const std::vector<optimise::Form>& terms,
                         const std::vector<double>& points, std::span<const double> emphasis = {});

/// Two blends this near in the gap, steps of feel, are a tie (judgement).
inline constexpr double kFeelTie = 0.1;

/// Returns the scale of a goal that is a sum of squares: the root.
optimise::GoalScale of_squares();

}  // namespace barwright::formulate
