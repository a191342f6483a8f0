#include "solver/app/swap/report_swap.hpp"

namespace barwright::app {

SwapReport report_swap(const solver::SwapJob& asked, const oils::Library& library,
                       const solver::SearchOptions& search) {
  SwapReport report;
  ReportOptions how;
  how.search = search;
  how.teach = false;
  report.blend = report_blend(asked.blend, library, how);
  auto kept = std::make_shared<solver::SwapJob>(asked);
  kept->blend = *report.blend.job;
  report.kept = kept;
  report.job = kept.get();
  const solver::SwapJob& job = *kept;
  if (report.blend.result.has_blend()) {
    report.result = solver::swap_result(job, report.blend.result, search);
    return report;
  }
  solver::BlendResult nearest = solver::find_blend(solver::nearest_anyway(job), search);
  if (nearest.has_blend()) {
    report.nearest_result = solver::swap_result(job, nearest, search);
    report.nearest = std::move(nearest);
  }
  return report;
}

}  // namespace barwright::app
