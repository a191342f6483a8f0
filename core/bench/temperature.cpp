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

double cooling_hours(double grams, double specific_heat, double density, Stand stand) {
  const double volume = grams / density * 1e-6;  // m3
  // A power and not std::cbrt, whose last digit differs from one C library to the next.
  const double width = std::pow(4 * volume / std::numbers::pi, 1.0 / 3);  // m, height = width
  const double surface = 1.5 * std::numbers::pi * width * width;          // side, top and bottom
  return grams * specific_heat / (heat_transfer(stand).span.typical * surface) / 3600;
}

std::optional<double> hours_to_reach(double from, double to, double around, double constant_hours) {
  if (from == to) return 0.0;
  const double start = from - around, end = to - around;
  // Surroundings must lie beyond `to`, seen from `from`.
  if (end == 0 || start / end <= 1) return std::nullopt;
  return constant_hours * std::log(start / end);
}

double celsius_after(double from, double around, double constant_hours, double hours) {
  return around + (from - around) * std::exp(-hours / constant_hours);
}

double fahrenheit(double celsius) { return celsius * 9 / 5 + 32; }

}  // namespace barwright::core
