#pragma once

#include "core/lye/batch.hpp"
#include "solver/batch/batch_plan.hpp"

namespace barwright::batch {

/// Returns what the batch says of lye with what the part says laid over it.
targets::LyeWish merged(const targets::LyeWish& batch, const targets::LyeWish& part);

/// Puts a portion of a shared lye in the place of the part's own lye.
void take_portion(PartPlan& plan, const core::LyePortion& portion, const core::Scales& scales);

}  // namespace barwright::batch
