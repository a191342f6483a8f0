#pragma once

#include "solver/jobs/explore/explore_job.hpp"

namespace barwright::app {

/// Returns it as one JSON object with a newline at its end; `status` is the plan's.
std::string json_explore(const jobs::ExploreJob& job, const jobs::Explored& seen);

}  // namespace barwright::app
