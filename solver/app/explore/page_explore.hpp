#pragma once

#include "solver/jobs/explore/explore_job.hpp"

namespace barwright::app {

/// Returns one self-contained HTML page with its charts inside; nothing of it comes from elsewhere.
std::string page_explore(const jobs::ExploreJob& job, const jobs::Explored& seen);

}  // namespace barwright::app
