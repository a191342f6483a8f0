#pragma once

#include "solver/app/blend/report_blend.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {

/// Returns how the wishes fared over the lots tried.
Json json_trial(const BlendReport& report);

/// Returns what the brief comes to at each level of sureness.
Json json_sureness(const jobs::SurenessPrice& price);

}  // namespace barwright::app
