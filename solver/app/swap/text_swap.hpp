#pragma once

#include "solver/app/swap/report_swap.hpp"

namespace barwright::app {

/// Returns the same as one self-contained HTML page, with a chart of the price of feel.
std::string page_swap(const SwapReport& report);

/// Returns the report as a maker reads it.
std::string text_swap(const SwapReport& report, bool colour);

}  // namespace barwright::app
