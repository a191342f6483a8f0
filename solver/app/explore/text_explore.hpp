#pragma once

#include "solver/jobs/explore/explore_job.hpp"

namespace barwright::app {

/// Returns a look around as a maker reads it.
std::string text_explore(const jobs::ExploreJob& job, const jobs::Explored& seen, bool colour);

}  // namespace barwright::app
