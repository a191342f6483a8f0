#pragma once

#include "solver/batch_plan.hpp"

namespace barwright::solver {

/// Returns what the batch says of lye with what the part says laid over it.
targets::LyeWish merged(const targets::LyeWish& batch, const targets::LyeWish& part);

/// Returns the part weighed out for this mass of oils (wetting oil included), lye of its own;
/// scents dosed and capped. `bars` is for doses per bar.
PartPlan plan_part(const BatchPlan& batch, const targets::Part& part, double oil_grams, int bars,
                   const std::optional<oils::Shelf>& shelf);

/// Puts a portion of a shared lye in the place of the part's own lye.
void take_portion(PartPlan& plan, const core::LyePortion& portion, const core::Scales& scales);

/// Doses scents by the portions' oils and caps them by their certificates (batch_scent.cpp).
/// Errors: InputError where no limit is entered.
std::vector<ScentPlan> plan_scents(const PartPlan& plan, const core::Recipe& without,
                                   const core::Scales& scales);

}  // namespace barwright::solver
