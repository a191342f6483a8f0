#pragma once

#include <span>
#include <string>

#include "core/lye/batch_pot.hpp"

// What the lye engine's own sources share; other layers use lye.hpp.
namespace barwright::core::lye_parts {

inline constexpr double kRaiseLimit = 0.08;    ///< superfat is not raised past this
inline constexpr double kMostSuperfat = 0.50;  ///< beyond, it is no longer soap

/// Returns moles of KOH (of any alkali) for grams of fat at a saponification value in mg KOH/g.
inline double moles_for(double grams, double value) { return grams * value / 1000 / kKohMolarMass; }

/// Returns moles of alkali that these fats take, by their typical figures.
inline double typical_moles(std::span<const PotFat> fats) {
  double moles = 0;
  for (const auto& fat : fats) moles += moles_for(fat.grams, fat.saponification_value.typical);
  return moles;
}

/// Returns g of water that a rule asks for, where `pure` g of alkali are in the `weighed` g of it.
inline double water_for(const WaterRule& rule, double pure, double weighed, double oil_grams) {
  switch (rule.kind) {
    case WaterRule::Kind::concentration:
      return pure / rule.value - weighed;
    case WaterRule::Kind::ratio:
      return rule.value * weighed;
    case WaterRule::Kind::of_oils:
      break;
  }
  return rule.value * oil_grams;
}

/// Returns g the weight of this fat may be off.
inline double error_of(const PotFat& fat, const Scales& scales) {
  return fat.error.value_or(scales.oils.error_grams());
}

}  // namespace barwright::core::lye_parts
