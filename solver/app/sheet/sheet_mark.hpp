#pragma once

#include <string>

#include "solver/batch/batch_times.hpp"

namespace barwright::app {

/// Returns the mark of a batch's recipe as weighed, eight letters: the same for the same weights,
/// parts and steps, whatever lies on the shelf and in which unit it is shown.
std::string sheet_mark(const batch::BatchPlan& plan, const batch::BatchTimes& times);

}  // namespace barwright::app
