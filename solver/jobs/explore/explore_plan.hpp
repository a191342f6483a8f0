#pragma once

#include "solver/jobs/explore/explore_job.hpp"

namespace barwright::jobs {

/// Plans what to buy for the whole range, and by when: fills in the plan of `out`, whose bars are
/// found already. Every blend of the plan is weighed and judged as its brief's own answer would be;
/// a wish it misses is held tighter, and the range planned again.
void plan_range(const ExploreJob& job, const optimise::SearchOptions& options, Explored& out);

}  // namespace barwright::jobs
