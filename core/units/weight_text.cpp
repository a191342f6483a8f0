#include "core/units/weight_text.hpp"

#include <algorithm>
#include <cmath>

#include "core/units/format.hpp"
#include "core/units/quantity.hpp"

namespace barwright::core {
namespace {

constexpr double kHair = 1e-9;  // of a step: what is a whole step must not become one less

int decimals_for(double step) {
  int out = 0;
  for (double each = step; std::abs(each - std::round(each)) > 1e-6 && out < 4; each *= 10) ++out;
  return out;
}

/// The tenth, hundredth ... of an ounce that is no coarser than a step of so many grams: 0.01 oz
/// for 1 g, 0.001 for 0.1 g; a coarser one would weigh worse than the lye was judged by.
double ounce_step(double step) {
  const double ounces = step / kGramsPerOunce;
  const double places = std::clamp(-std::floor(std::log10(ounces) + kHair), 0.0, 4.0);
  double out = 1;
  for (int i = 0; i < static_cast<int>(places); ++i) out /= 10;
  return out;
}

thread_local Units shown = Units::grams;

/// So many steps of an ounce, as pounds and ounces.
std::string in_pounds(double steps, double step) {
  const int decimals = decimals_for(step);
  const double per_pound = std::round(16 / step);
  if (steps < per_pound) return fixed(steps * step, decimals) + " oz";
  const double whole = std::floor(steps / per_pound);
  return fixed(whole, 0) + " lb " + fixed((steps - whole * per_pound) * step, decimals) + " oz";
}

double steps_of(double value, double step, Rounding rounding) {
  const double steps = value / step;
  return rounding == Rounding::down ? std::floor(steps + kHair) : std::round(steps);
}

}  // namespace

Units shown_units() { return shown; }

ShownIn::ShownIn(Units units) : before_(shown) { shown = units; }
ShownIn::~ShownIn() { shown = before_; }

std::string weight_text(double grams, double step, Units units, Rounding rounding) {
  if (units == Units::grams)
    return fixed(steps_of(grams, step, rounding) * step, decimals_for(step)) + " g";
  const double each = ounce_step(step);
  return in_pounds(steps_of(grams / kGramsPerOunce, each, rounding), each);
}

std::string mass_text(double grams, Units units) {
  if (units == Units::ounces) {
    const double each = grams < kGramsPerOunce ? 0.01 : 0.1;
    return in_pounds(steps_of(grams / kGramsPerOunce, each, Rounding::nearest), each);
  }
  std::string out = grams >= 1000 ? fixed(grams / 1000, 2) : fixed(grams, 0);
  if (out.find('.') != std::string::npos) {
    out.erase(out.find_last_not_of('0') + 1);
    if (out.back() == '.') out.pop_back();
  }
  return out + (grams >= 1000 ? " kg" : " g");
}

std::string round_grams(double grams) {
  return shown == Units::ounces ? mass_text(grams, shown) : fixed(grams, 0) + " g";
}

namespace {

constexpr double kPerPound = 16.0 / 1000;  // oz per lb of a g per kg

std::string rate_figure(double grams_per_kg, int decimals) {
  return shown == Units::ounces ? fixed(grams_per_kg * kPerPound, 2)
                                : fixed(grams_per_kg, decimals);
}
const char* rate_unit() { return shown == Units::ounces ? " oz per lb" : " g per kg"; }

}  // namespace

std::string rate_text(double grams_per_kg) {
  std::string out = rate_figure(grams_per_kg, 1);
  if (out.ends_with(".0")) out.erase(out.size() - 2);
  return out + rate_unit();
}

std::string rate_span(double low, double high) {
  return rate_figure(low, 0) + " to " + rate_figure(high, 0) + rate_unit();
}

}  // namespace barwright::core
