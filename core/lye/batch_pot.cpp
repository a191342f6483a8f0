#include "core/lye/batch_pot.hpp"

#include <algorithm>
#include <cmath>

#include "core/lye/lye_parts.hpp"
#include "core/units/error.hpp"

namespace barwright::core {

using namespace lye_parts;

PotCheck check_pot(const Pot& pot, const Scales& scales) {
  check(scales);
  PotCheck out;
  double low = 0, high = 0;
  for (const auto& fat : pot.fats) {
    if (!(fat.grams >= 0) || !std::isfinite(fat.grams)) {
      throw Refusal("The weight of '" + fat.name + "' is not a weight.", "Give it in grams.");
    }
    if (fat.grams == 0) continue;  // not weighed: no error of a scale either
    const Span span = judged_span(fat);
    const double error = error_of(fat, scales);
    low += moles_for(std::max(0.0, fat.grams - error), span.low);
    out.need_moles += moles_for(fat.grams, span.typical);
    high += moles_for(fat.grams + error, span.high);
  }
  double least = 0;
  for (const auto& line : pot.alkali) {
    if (!(line.grams >= 0) || !std::isfinite(line.grams)) {
      throw Refusal("The weight of the alkali is not a weight.", "Give it in grams.");
    }
    if (line.grams == 0) continue;
    const double molar = molar_mass(line.alkali);
    out.dosed_moles += line.grams * line.strength.stated / molar;
    out.most_moles += (line.grams + line.error) * strongest(line.alkali, line.strength) / molar;
    least += std::max(0.0, line.grams - line.error) * weakest(line.alkali, line.strength) / molar;
  }
  const double error = scales.lye.error_grams();
  for (const auto& acid : pot.acids) {
    const double moles = alkali_moles(acid);
    out.acid_moles += moles;
    out.most_moles -= least_alkali_moles(acid, error);
    least -= acid.grams > 0 ? moles * (1 + error / acid.grams) : 0;
  }
  if (!(out.need_moles > 0)) {
    out.nothing_left = true;
    out.superfat = -1;
    out.band = {-1, -1};
    return out;
  }
  out.superfat = 1 - (out.dosed_moles - out.acid_moles) / out.need_moles;
  // Without any fat left for certain (wax alone is not), the worst case is free alkali outright.
  out.band = {low > 0 ? 1 - out.most_moles / low : -1, 1 - std::max(0.0, least) / high};
  return out;
}

std::vector<Forgotten> if_forgotten(const Pot& pot, const Scales& scales) {
  std::vector<Forgotten> lines;
  const auto add = [&](const std::string& name, const Pot& without) {
    const PotCheck left = check_pot(without, scales);
    lines.push_back({name, left.nothing_left ? 0 : left.superfat, left.band.low, left.band.low < 0,
                     left.nothing_left});
  };
  for (std::size_t i = 0; i < pot.fats.size(); ++i) {
    Pot without = pot;
    without.fats[i].grams = 0;
    add(pot.fats[i].name, without);
  }
  for (std::size_t i = 0; i < pot.acids.size(); ++i) {
    Pot without = pot;
    without.acids[i].grams = 0;
    add(pot.acids[i].name, without);
  }
  return lines;
}

}  // namespace barwright::core
