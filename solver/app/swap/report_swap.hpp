#pragma once

#include <memory>
#include <optional>

#include "solver/app/blend/report_blend.hpp"
#include "solver/jobs/swap/swap_result.hpp"

namespace barwright::app {

/// An answer to a swap.
struct SwapReport {
  const jobs::SwapJob* job = nullptr;  ///< `kept`: the swap asked for, with its manners
  std::shared_ptr<const jobs::SwapJob> kept;
  BlendReport blend;                       ///< the answer to the swap as asked
  std::optional<jobs::SwapResult> result;  ///< where it has a blend
  /// Where nothing keeps all that was asked: the nearest blend, feel and saving let go.
  std::optional<jobs::BlendResult> nearest;
  std::optional<jobs::SwapResult> nearest_result;
};

/// Returns the finished report. `job` must outlive it.
SwapReport report_swap(const jobs::SwapJob& job, const oils::Library& library,
                       const optimise::SearchOptions& search);

/// Returns the report as a maker reads it.
std::string text_swap(const SwapReport& report, bool colour);

/// Returns the same as one self-contained HTML page, with a chart of the price of feel.
std::string page_swap(const SwapReport& report);

/// Returns it as one JSON object with a newline at its end.
std::string json_swap(const SwapReport& report);
/// Returns old and new, what to weigh, feel, saving, bench and the price of feel as one table
/// (RFC 4180): what, oil, figure, unit.
std::string csv_swap(const SwapReport& report);

}  // namespace barwright::app
