#pragma once

#include "solver/app/json.hpp"
#include "solver/jobs/report/report_blend.hpp"

namespace barwright::app {

/// Returns how the wishes fared over the lots tried.
Json json_trial(const jobs::BlendReport& report);

/// Returns what the brief comes to at each level of sureness.
Json json_sureness(const jobs::SurenessPrice& price);

}  // namespace barwright::app
