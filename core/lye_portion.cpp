#include "core/lye_portion.hpp"

namespace barwright::core {

std::vector<PotAlkali> portion_of(std::span<const PotAlkali> in_pot, double portion_grams,
                                  double pot_grams, const Scales& scales) {
  const double error = scales.lye.error_grams();
  const double part = portion_grams / pot_grams;
  std::vector<PotAlkali> out;
  for (const auto& line : in_pot) {
    PotAlkali one = line;
    one.grams = line.grams * part;
    // The pot's alkali and water (or making weight) off, and the portion's own weighing.
    one.error = part * error + one.grams * error / pot_grams + error * line.grams / pot_grams;
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
