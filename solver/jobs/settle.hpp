#pragma once

#include "solver/jobs/blend_job.hpp"

namespace barwright::jobs {

/// Search and weighing settle in two or three passes; more means a cycle between two sizes.
inline constexpr int kMostPasses = 8;

inline constexpr const char* kTooCoarse =
    "The scale's steps are too coarse to keep every wish exactly: weigh finer, make a larger "
    "batch, or loosen the tightest wish a little.";

/// Searches at the settings of the blend found last until they agree, from result.assumed on.
/// Returns whether the blend was weighed and keeps every wish; if not, `result` holds one met on
/// the way that does, if any did. Errors: InputError.
bool settle(const BlendJob& job, const optimise::SearchOptions& options, BlendResult& result);

}  // namespace barwright::jobs
