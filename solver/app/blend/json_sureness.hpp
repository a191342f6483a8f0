#pragma once

#include <nlohmann/json_fwd.hpp>

#include "solver/app/blend/report_blend.hpp"

namespace barwright::app {

/// Returns how the wishes fared over the lots tried.
nlohmann::ordered_json json_trial(const BlendReport& report);

/// Returns what the brief comes to at each level of sureness.
nlohmann::ordered_json json_sureness(const solver::SurenessPrice& price);

}  // namespace barwright::app
