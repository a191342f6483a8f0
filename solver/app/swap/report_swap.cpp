#include "solver/app/swap/report_swap.hpp"

namespace barwright::app {

SwapReport report_swap(const jobs::SwapJob& asked, const oils::Library& library,
                       const optimise::SearchOptions& search) {
  SwapReport report;
  ReportOptions how;
  how.search = search;
  how.teach = false;
  report.blend = report_blend(asked.blend, library, how);
  auto kept = std::make_shared<jobs::SwapJob>(asked);
  kept->blend = *report.blend.job;
  report.kept = kept;
  report.job = kept.get();
  const jobs::SwapJob& job = *kept;
  if (report.blend.result.has_blend()) {
    report.result = jobs::swap_result(job, report.blend.result, search);
    return report;
  }
  jobs::BlendResult nearest = jobs::find_blend(jobs::nearest_anyway(job), search);
  if (nearest.has_blend()) {
    report.nearest_result = jobs::swap_result(job, nearest, search);
    report.nearest = std::move(nearest);
  }
  return report;
}

}  // namespace barwright::app
