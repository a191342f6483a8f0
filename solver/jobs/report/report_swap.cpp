#include "solver/jobs/report/report_swap.hpp"

namespace barwright::jobs {

SwapReport report_swap(const SwapJob& asked, const oils::Library& library,
                       const optimise::SearchOptions& search) {
  SwapReport report;
  ReportOptions how;
  how.search = search;
  how.teach = false;
  report.blend = report_blend(asked.blend, library, how);
  auto kept = std::make_shared<SwapJob>(asked);
  kept->blend = *report.blend.job;
  report.kept = kept;
  report.job = kept.get();
  const SwapJob& job = *kept;
  if (report.blend.result.has_blend()) {
    report.result = swap_result(job, report.blend.result, search);
    return report;
  }
  BlendResult nearest = find_blend(nearest_anyway(job), search);
  if (nearest.has_blend()) {
    report.nearest_result = swap_result(job, nearest, search);
    report.nearest = std::move(nearest);
  }
  return report;
}

}  // namespace barwright::jobs
