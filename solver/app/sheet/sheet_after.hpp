#pragma once

#include <vector>

#include "solver/app/sheet/sheet_lines.hpp"

namespace barwright::app {

/// Returns what comes after trace, in order: pour and top, rest, cut, cure, test.
std::vector<SheetText> after_pour(const batch::BatchPlan& plan, const batch::BatchTimes& times);

}  // namespace barwright::app
