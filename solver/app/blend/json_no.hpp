#pragma once

#include <span>

#include "solver/app/json.hpp"
#include "solver/jobs/report/report_blend.hpp"

namespace barwright::app {

/// Returns shares in whole steps as a list of {"oil", "percent"}.
Json json_shares(const jobs::BlendReport& report, std::span<const int> steps);

/// Returns why nothing fits, as members of the answer: what collides, reach, ways out and
/// purchases, these with the edits that make them.
Json no_json(const jobs::BlendReport& report, const jobs::No& no);

}  // namespace barwright::app
