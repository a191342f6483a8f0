#pragma once

#include "solver/app/blend/report_blend.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {

/// Returns the manners in force and what became of each.
Json json_manners(const BlendReport& report);

}  // namespace barwright::app
