#pragma once

#include <string>

#include "solver/batch/batch_rescue.hpp"

namespace barwright::app {

/// Returns a rescue as a maker reads it with gloves on: is it safe, what to add, when.
std::string text_rescue(const batch::BatchPlan& plan, const batch::Rescue& rescue, bool colour);

}  // namespace barwright::app
