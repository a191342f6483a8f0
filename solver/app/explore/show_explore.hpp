#pragma once

#include <string>

#include "solver/jobs/explore/explore_job.hpp"

namespace barwright::app {

/// Returns a look around as a maker reads it.
std::string text_explore(const jobs::ExploreJob& job, const jobs::Explored& seen, bool colour);

/// Returns it as one JSON object with a newline at its end; `status` is the plan's.
std::string json_explore(const jobs::ExploreJob& job, const jobs::Explored& seen);

/// Returns blends, curves and purchases as one table (RFC 4180): what, bar, oil, figure, unit.
std::string csv_explore(const jobs::ExploreJob& job, const jobs::Explored& seen);

/// Returns one self-contained HTML page with its charts inside; nothing of it comes from elsewhere.
std::string page_explore(const jobs::ExploreJob& job, const jobs::Explored& seen);

}  // namespace barwright::app
