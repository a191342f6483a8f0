#pragma once

#include <string>
#include <string_view>

#include "solver/app/sheet/sheet_lines.hpp"

namespace barwright::app {

/// What tells a page of ours from a file of somebody's.
inline constexpr std::string_view kPageMark =
    "<meta name=\"generator\" content=\"barwright sheet\">";

/// Returns the sheet as one HTML page to print.
std::string page_sheet(const Sheet& sheet);

}  // namespace barwright::app
