#pragma once

#include <memory>
#include <optional>

#include "solver/jobs/report/report_blend.hpp"
#include "solver/jobs/swap/swap_result.hpp"

namespace barwright::jobs {

/// An answer to a swap.
struct SwapReport {
  const SwapJob* job = nullptr;  ///< `kept`: the swap asked for, with its manners
  std::shared_ptr<const SwapJob> kept;
  BlendReport blend;                 ///< the answer to the swap as asked
  std::optional<SwapResult> result;  ///< where it has a blend
  /// Where nothing keeps all that was asked: the nearest blend, feel and saving let go.
  std::optional<BlendResult> nearest;
  std::optional<SwapResult> nearest_result;
};

/// Returns the finished report. `job` must outlive it.
SwapReport report_swap(const SwapJob& job, const oils::Library& library,
                       const optimise::SearchOptions& search);

}  // namespace barwright::jobs
