#pragma once

#include "core/chemistry/heat.hpp"

namespace barwright::core {

/// Returns the time constant of drying, days, of a bar about 25 mm thick (judgement; the property
/// model reckons with the same 14 days).
const HeatFigure& drying_days();

/// Returns the water share of a bar's weight these days after cutting: from `fresh` (fraction) to
/// the cured share (core/mould.hpp), exponentially; longer the thicker the bar is (square of
/// thickness over 25 mm, mm).
double water_share_after(double fresh, double days, double thickness_mm = 25);

/// Returns the whole weeks until the bar is within one and a half points of its cured water share;
/// never under four (common practice, no source).
int drying_weeks(double fresh, double thickness_mm = 25);

}  // namespace barwright::core
