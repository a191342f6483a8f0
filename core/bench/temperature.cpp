#include "core/bench/temperature.hpp"

#include <cmath>
#include <numbers>

namespace barwright::core {

const HeatFigure& heat_transfer(Stand stand) {
  static const HeatFigure air{
      {8, 14, 20}, "still air with radiation and some steam, textbook order", Mark::judgement};
  static const HeatFigure bath{{40, 80, 160},
                               "stirred cold water through a plastic or steel wall, textbook order",
                               Mark::judgement};
  return stand == Stand::air ? air : bath;
}

double cooling_hours(const Vessel& vessel, Stand stand) {
  const double volume = vessel.grams / vessel.density * 1e-6;  // m3
  // A power and not std::cbrt, whose last digit differs from one C library to the next.
  const double width = std::pow(4 * volume / std::numbers::pi, 1.0 / 3);  // m, height = width
  const double surface = 1.5 * std::numbers::pi * width * width;          // side, top and bottom
  return vessel.grams * vessel.specific_heat / (heat_transfer(stand).span.typical * surface) / 3600;
}

std::optional<double> hours_to_reach(const Cooling& cooling, double celsius) {
  if (cooling.from_celsius == celsius) return 0.0;
  const double start = cooling.from_celsius - cooling.around_celsius;
  const double end = celsius - cooling.around_celsius;
  // What is around must lie beyond where it is to come, seen from where it is.
  if (end == 0 || start / end <= 1) return std::nullopt;
  return cooling.constant_hours * std::log(start / end);
}

double celsius_after(const Cooling& cooling, double hours) {
  return cooling.around_celsius + (cooling.from_celsius - cooling.around_celsius) *
                                      std::exp(-hours / cooling.constant_hours);
}

double fahrenheit(double celsius) { return celsius * 9 / 5 + 32; }

}  // namespace barwright::core
