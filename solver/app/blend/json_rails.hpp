#pragma once

#include <span>

#include "solver/app/json.hpp"
#include "solver/jobs/report/report_blend.hpp"

namespace barwright::app {

/// Returns every property by name: unit, the step that is just noticed, `today` (of the bar in the
/// hand); with a blend its value, its difference and the word for it; with a reach how far it goes,
/// as differences too.
Json properties_json(const jobs::BlendReport& report);

/// Returns the oil cost likewise, per kg of oils, and per batch and bar.
Json cost_json(const jobs::BlendReport& report);

/// Returns the superfat, %: as asked, as made, the least and the most it can be.
Json superfat_json(const core::Recipe& recipe);

/// Returns all cautions of the answer: {"severity": "danger", "warning" or "note", "say"}.
Json cautions_json(const jobs::BlendReport& report);

/// Returns how much is made: {"say": "36 bars of 105 g, weighed cured", "bars", "oils_grams"}.
Json make_json(const jobs::BlendReport& report);

/// Returns the properties by name, each with its difference to the yardstick.
Json json_properties(std::span<const jobs::PropertyLine> lines);

}  // namespace barwright::app
