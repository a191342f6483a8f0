#pragma once

#include "solver/jobs/explore/explore_job.hpp"

namespace barwright::app {

/// Returns blends, curves and purchases as one table (RFC 4180): what, bar, oil, figure, unit.
std::string csv_explore(const jobs::ExploreJob& job, const jobs::Explored& seen);

}  // namespace barwright::app
