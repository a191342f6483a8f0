#include "core/batch_pot.hpp"

#include <algorithm>
#include <cmath>

#include "core/error.hpp"

namespace barwright::core {

namespace {

double moles_for(double grams, double value) { return grams * value / 1000 / kKohMolarMass; }

}  // namespace

PotCheck check_pot(const Pot& pot, const Scales& scales) {
  check(scales);
  double low = 0, typical = 0, high = 0;
  for (const auto& fat : pot.fats) {
    if (!(fat.grams >= 0) || !std::isfinite(fat.grams)) {
      throw Refusal("The weight of '" + fat.name + "' is not a weight.", "Give it in grams.");
    }
    if (fat.grams == 0) continue;  // not weighed: no error of a scale either
    const Span span = judged_span(fat);
    const double error = fat.error.value_or(scales.oils.error_grams());
    low += moles_for(std::max(0.0, fat.grams - error), span.low);
    typical += moles_for(fat.grams, span.typical);
    high += moles_for(fat.grams + error, span.high);
  }
  double alkali = 0, most = 0, least = 0;
  for (const auto& line : pot.alkali) {
    if (!(line.grams >= 0) || !std::isfinite(line.grams)) {
      throw Refusal("The weight of the alkali is not a weight.", "Give it in grams.");
    }
    const double molar = molar_mass(line.alkali);
    alkali += line.grams * line.strength.stated / molar;
    most += (line.grams + line.error) * strongest(line.alkali, line.strength) / molar;
    least += std::max(0.0, line.grams - line.error) * weakest(line.alkali, line.strength) / molar;
  }
  const double lye_error = scales.lye.error_grams();
  for (const auto& acid : pot.acids) {
    const double moles = alkali_moles(acid);
    alkali -= moles;
    most -= least_alkali_moles(acid, lye_error);
    least -= acid.grams > 0 ? moles * (1 + lye_error / acid.grams) : 0;
  }
  PotCheck out;
  if (!(typical > 0)) {
    out.nothing_left = true;
    return out;
  }
  out.superfat = 1 - alkali / typical;
  out.band = {low > 0 ? 1 - most / low : -1, 1 - std::max(0.0, least) / high};
  return out;
}

}  // namespace barwright::core
