#include "core/units/scale.hpp"

#include <cmath>
#include <string>

#include "core/units/error.hpp"
#include "core/units/format.hpp"

namespace barwright::core {

namespace {

constexpr double kHair = 1e-9;  // of a step: 0.3 / 0.1 must not become two steps

double on_grid(double steps, double step) {
  // Cleared of the last binary digits, so that 1353 steps of 0.1 g print as 135.3 g.
  const double grams = steps * step;
  const double tidy = std::round(grams * 1e9) / 1e9;
  return std::abs(tidy - grams) < 1e-9 * step ? tidy : grams;
}

void check(const Scale& scale, const char* which) {
  const double error = scale.error.value_or(scale.step);
  if (!(scale.step > 0) || !std::isfinite(scale.step) || !(error >= 0) || !std::isfinite(error)) {
    throw Refusal(std::string("The ") + which + " scale's step or error is not a weight.",
                  "Give the smallest step the scale shows, such as 1 g or 0.1 g.");
  }
}

}  // namespace

double rounded_down(double grams, double step) {
  return on_grid(std::floor(grams / step + kHair), step);
}

double rounded(double grams, double step) { return on_grid(std::round(grams / step), step); }

double usual_step(double grams) {
  const double decade = std::pow(10, std::floor(std::log10(grams)));
  const double lead = grams / decade;
  return decade * (lead >= 5 ? 5 : lead >= 2 ? 2 : 1);
}

void check(const Scales& scales) {
  check(scales.oils, "oils");
  check(scales.lye, "lye");
}

}  // namespace barwright::core
