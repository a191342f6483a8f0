#pragma once

#include <vector>

#include "solver/explain/reach.hpp"
#include "solver/formulate/kept_manner.hpp"
#include "solver/jobs/blend_job.hpp"

namespace barwright::jobs {

/// How far one figure of the bar can be pulled while every other wish and rule is kept; what the
/// house does unasked gives way to a wish, so it is left out, but the claims of the maker's own bar
/// stay.
struct RailReach {
  targets::Subject subject;
  double offset = 0;     ///< the figure of the bar in the hand, the subject's own unit
  explain::Extreme low;  ///< the figure itself, the subject's own unit; no steps: not known
  explain::Extreme high;
};

/// Returns the reach of each property that can be wished for, in the order of all_properties(),
/// then of the oil cost per kg where all oils have prices. `found` is the job's answer, with a
/// blend or none. Within the options' allowance; an end that was not proved is the furthest blend
/// found. Errors: none.
std::vector<RailReach> rail_reach(const BlendJob& asked, const formulate::HeldTo& held,
                                  const BlendResult& found, const optimise::SearchOptions& options);

}  // namespace barwright::jobs
