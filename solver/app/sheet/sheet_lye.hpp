#pragma once

#include <vector>

#include "solver/app/sheet/sheet_lines.hpp"

namespace barwright::app {

/// Returns what is weighed into lye pots and cups of acid: the shared pot and its portions, then
/// part by part.
std::vector<SheetTable> lye_tables(const batch::BatchPlan& plan);

}  // namespace barwright::app
