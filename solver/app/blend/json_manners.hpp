#pragma once

#include <nlohmann/json_fwd.hpp>

#include "solver/app/blend/report_blend.hpp"

namespace barwright::app {

/// Returns the manners in force and what became of each.
nlohmann::ordered_json json_manners(const BlendReport& report);

}  // namespace barwright::app
