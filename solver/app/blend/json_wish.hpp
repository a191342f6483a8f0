#pragma once

#include "solver/app/json.hpp"
#include "solver/jobs/report/report_blend.hpp"

namespace barwright::app {

/// Returns a number, or null for one without end: JSON knows no infinity.
Json finite(double value);

/// Returns what was asked: its words, file, line, path, the property it is about ("cost" for a
/// price, null for others).
Json wish_json(const jobs::BlendReport& report, int asked);

/// Returns every wish and rule that is measured, in file order, with its ends as wished: low, high.
/// With a blend also the value it has.
Json wishes_json(const jobs::BlendReport& report);

/// Returns the brief's rules on single oils, %: {"oil", "least", "most", "file", "path"}.
Json oil_rules_json(const jobs::BlendReport& report);

}  // namespace barwright::app
