#pragma once

#include "solver/jobs/blend_job.hpp"
#include "solver/optimise/lp_file.hpp"

namespace barwright::jobs {

/// Returns the question of a brief in LP format, at the batch size and superfat of the recipe found
/// (without one: those assumed), its wishes as they are written: what find_blend holds tighter so
/// that a wish outlives rounding is no part of the question.
optimise::LpText lp_of(const BlendJob& job, const BlendResult& result);

}  // namespace barwright::jobs
