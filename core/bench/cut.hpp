#pragma once

#include <vector>

#include "core/bench/mould.hpp"

namespace barwright::core {

/// Where one log is cut.
struct CutPlan {
  int bars = 0;                 ///< of one log
  std::vector<double> cuts_mm;  ///< left edge of each cut from one end, mm
  double left_over_mm = 0;  ///< at the far end, past the last cut: trim and what is no whole bar
};

/// Returns the plan for a log of this length, mm. Errors: Refusal when no whole bar fits.
CutPlan cut_plan(double length_mm, const Cutting& cutting);

}  // namespace barwright::core
