#include "core/bench/cut.hpp"

namespace barwright::core {

CutPlan cut_plan(double length_mm, const Cutting& cutting) {
  CutPlan plan;
  plan.bars = bars_from_log(length_mm, cutting);
  double at = 0;
  if (cutting.end_trim > 0) {
    at = cutting.end_trim;
    plan.cuts_mm.push_back(at);
    at += cutting.kerf;
  }
  for (int bar = 0; bar < plan.bars; ++bar) {
    at += cutting.slice;
    if (at >= length_mm - 1e-9) break;  // the last bar ends with the log
    plan.cuts_mm.push_back(at);
    at += cutting.kerf;
  }
  plan.left_over_mm = length_mm > at ? length_mm - at : 0;
  return plan;
}

}  // namespace barwright::core
