#pragma once

#include <string>

#include "solver/app/json.hpp"
#include "solver/batch/batch_clock.hpp"
#include "solver/batch/batch_rescue.hpp"

namespace barwright::app {

/// Returns the batch with its times as an object.
Json sheet_object(const batch::BatchPlan& plan, const batch::BatchTimes& times);
/// Returns it as text with a newline at its end.
std::string json_sheet(const batch::BatchPlan& plan, const batch::BatchTimes& times);
/// Returns a rescue as one JSON object; `status` is "safe", "mend" or "hold".
std::string json_rescue(const batch::BatchPlan& plan, const batch::Rescue& rescue);

}  // namespace barwright::app
