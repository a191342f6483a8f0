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

}  // namespace barwright::app
