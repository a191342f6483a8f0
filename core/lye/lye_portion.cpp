#include "core/lye/lye_portion.hpp"

#include <algorithm>

namespace barwright::core {

std::vector<PotAlkali> portion_of(std::span<const PotAlkali> in_pot, double portion_grams,
                                  double pot_grams, const Scales& scales) {
  const double error = scales.lye.error_grams();
  const double part = portion_grams / pot_grams;
  std::vector<PotAlkali> out;
  for (const auto& line : in_pot) {
    PotAlkali one = line;
    one.grams = line.grams * part;
    // All three weighings off at once, each the way that leaves more alkali: the pot's alkali, its
    // total (water, or making weight), the portion.
    const double least_pot = std::max(pot_grams - error, error);
    const double most = line.grams + std::max(line.error, error);
    one.error = most * (portion_grams + error) / least_pot - one.grams;
    out.push_back(one);
  }
  return out;
}

double moles_of(std::span<const PotAlkali> lines) {
  double moles = 0;
  for (const auto& line : lines) {
    moles += line.grams * line.strength.stated / molar_mass(line.alkali);
  }
  return moles;
}

}  // namespace barwright::core
