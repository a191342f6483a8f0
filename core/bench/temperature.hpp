#pragma once

#include <optional>

#include "core/chemistry/heat.hpp"

namespace barwright::core {

/// Where a vessel stands to cool.
enum class Stand {
  air,        ///< on the bench, still air
  cold_bath,  ///< in a basin of cold water, stirred now and then
};
/// Returns W/m2K that leave the vessel's side (judgement: textbook orders of size, vessel wall
/// included).
const HeatFigure& heat_transfer(Stand stand);

/// What stands there.
struct Vessel {
  double grams = 0;
  double specific_heat = 1;  ///< J/gK
  double density = 1;        ///< g/mL
};
/// Returns the hours in which a vessel loses 63 % of what it is warmer than its surroundings:
/// lumped, a cylinder as high as wide.
double cooling_hours(const Vessel& vessel, Stand stand);

/// A vessel on its way to the temperature around it.
struct Cooling {
  double from_celsius = 0;
  double around_celsius = 0;
  double constant_hours = 1;  ///< as cooling_hours() gives it
};
/// Returns h until it has come to this temperature, C; nothing when it never gets there. 0 when it
/// is there already.
std::optional<double> hours_to_reach(const Cooling& cooling, double celsius);

/// Returns C after these hours.
double celsius_after(const Cooling& cooling, double hours);

/// Returns F for a temperature in C.
double fahrenheit(double celsius);

}  // namespace barwright::core
