#pragma once

#include <optional>

#include "solver/batch/part_size.hpp"

namespace barwright::batch {

/// Returns the part weighed out, lye of its own; scents dosed and capped.
PartPlan plan_part(const BatchPlan& batch, const targets::Part& part, const PartSize& size,
                   const std::optional<oils::Shelf>& shelf);

}  // namespace barwright::batch
