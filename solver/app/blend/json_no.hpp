#pragma once

#include <span>

#include "solver/app/blend/report_blend.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {

/// Returns shares in whole steps as a list of {"oil", "percent"}.
Json json_shares(const BlendReport& report, std::span<const int> steps);

/// Returns why nothing fits, as members of the answer: what collides, reach, ways out and
/// purchases, these with the edits that make them.
Json no_json(const BlendReport& report, const No& no);

}  // namespace barwright::app
