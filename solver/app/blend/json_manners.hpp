#pragma once

#include "solver/app/json.hpp"
#include "solver/jobs/report/report_blend.hpp"

namespace barwright::app {

/// Returns the manners in force and what became of each.
Json json_manners(const jobs::BlendReport& report);

}  // namespace barwright::app
