#pragma once

#include <vector>

#include "solver/batch/batch_plan.hpp"

namespace barwright::batch {

/// Doses scents by the portions' oils and caps them by their certificates, where there is one.
/// Errors: InputError for a dose that does not count on oils or batter.
std::vector<ScentPlan> plan_scents(const PartPlan& plan, const core::Recipe& without,
                                   const core::Scales& scales, const oils::Additives& additives);

/// Returns what is to be minded of a part's scents: caps, certificates not there, several together,
/// what each does to the batter. Their flash points are add_time_notes()'s.
std::vector<core::Note> scent_notes(const PartPlan& part);

}  // namespace barwright::batch
