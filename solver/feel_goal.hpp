#pragma once

#include <span>
#include <vector>

#include "solver/candidate.hpp"
#include "solver/known_bar.hpp"
#include "solver/problem.hpp"
#include "targets/model.hpp"

namespace barwright::solver {

/// Returns the terms of targets::feel_terms() over oil shares, in units of which 1 is just noticed.
std::vector<Form> feel_over_oils(const targets::PropertyModel& model,
                                 const targets::BarSettings& settings,
                                 std::span<const Candidate> candidates);

/// Returns the terms' values for a known bar, one per term.
std::vector<double> feel_points(const targets::PropertyModel& model, const KnownBar& bar);

/// Returns the goal of least gap in feel, squared: each term pulled to its point by its own weight,
/// times `emphasis` where given (one per term). Gives way to later goals by kFeelTie.
Goal feel_goal(const std::vector<Form>& terms, const std::vector<double>& points,
               std::span<const double> emphasis = {});

/// Two blends this near in the squared gap are a tie: a tenth of a step where the feel is all but
/// kept (judgement).
inline constexpr double kFeelTie = 0.01;

}  // namespace barwright::solver
