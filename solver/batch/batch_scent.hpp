#pragma once

#include <vector>

#include "solver/batch/batch_plan.hpp"

namespace barwright::batch {

/// Doses scents by the portions' oils and caps them by their certificates.
/// Errors: InputError where no limit is entered.
std::vector<ScentPlan> plan_scents(const PartPlan& plan, const core::Recipe& without,
                                   const core::Scales& scales);

}  // namespace barwright::batch
