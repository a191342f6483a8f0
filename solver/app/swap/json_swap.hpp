#pragma once

#include "solver/jobs/report/report_swap.hpp"

namespace barwright::app {

/// Returns old and new, what to weigh, feel, saving, bench and the price of feel as one table
/// (RFC 4180): what, oil, figure, unit.
std::string csv_swap(const jobs::SwapReport& report);

/// Returns it as one JSON object with a newline at its end.
std::string json_swap(const jobs::SwapReport& report);

}  // namespace barwright::app
