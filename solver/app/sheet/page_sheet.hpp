#pragma once

#include "solver/app/sheet/sheet_lines.hpp"

namespace barwright::app {

std::string page_sheet(const Sheet& sheet);

}  // namespace barwright::app
