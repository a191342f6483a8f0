#pragma once

#include <optional>

#include "core/lye/heat.hpp"

namespace barwright::core {

/// Where a vessel stands to cool.
enum class Stand {
  air,        ///< on the bench, still air
  cold_bath,  ///< in a basin of cold water, stirred now and then
};
/// Returns W/m2K that leave the vessel's side (judgement: textbook orders of size, vessel wall
/// included).
const HeatFigure& heat_transfer(Stand stand);

/// Returns the hours in which a vessel loses 63 % of what it is warmer than its surroundings:
/// lumped, a cylinder as high as wide, `specific_heat` J/gK, `density` g/mL.
double cooling_hours(double grams, double specific_heat, double density, Stand stand);

/// Returns h until `from` has become `to`, surroundings at `around` (all C), time constant in h;
/// nothing when it never gets there. 0 when it is there already.
std::optional<double> hours_to_reach(double from, double to, double around, double constant_hours);

/// Returns C after these hours.
double celsius_after(double from, double around, double constant_hours, double hours);

/// Returns F for a temperature in C.
double fahrenheit(double celsius);

}  // namespace barwright::core
