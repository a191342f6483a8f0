#pragma once

#include "solver/app/sheet/sheet_lines.hpp"

namespace barwright::app {

/// The sheet as text (text_sheet.cpp) and as one self-contained HTML page (page_sheet.cpp).
std::string text_sheet(const Sheet& sheet, bool colour);

}  // namespace barwright::app
