#pragma once

#include "solver/jobs/report/report_swap.hpp"

namespace barwright::app {

/// Returns the same as one self-contained HTML page, with a chart of the price of feel.
std::string page_swap(const jobs::SwapReport& report);

/// Returns the report as a maker reads it.
std::string text_swap(const jobs::SwapReport& report, bool colour);

}  // namespace barwright::app
