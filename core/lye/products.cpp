#include "core/lye/products.hpp"

namespace barwright::core {

namespace {

constexpr double kGlycerol = 3 * 12.011 + 8 * 1.008 + 3 * 15.999;
constexpr double kWater = 2 * 1.008 + 15.999;

}  // namespace

Products products_of(std::span<const PotFat> fats, std::span<const AlkaliLine> alkali,
                     const PotRest& rest) {
  Products out;
  double alkali_moles_all = 0, alkali_pure = 0;
  for (const auto& line : alkali) {
    alkali_moles_all += line.pure_grams() / molar_mass(line.alkali);
    alkali_pure += line.pure_grams();
    out.other += line.grams - line.pure_grams();
  }
  const double per_mole = alkali_pure / alkali_moles_all;
  // Every fat is taken to be saponified in the same proportion.
  const double done = 1 - rest.superfat;
  out.water = rest.water_grams;
  for (const auto& fat : fats) {
    const double unsaponifiable = fat.grams * fat.unsaponifiable;
    const double saponifiable = fat.grams - unsaponifiable;
    const double moles = fat.grams * fat.saponification_value.typical / 1000 / kKohMolarMass * done;
    out.unsaponifiable += unsaponifiable;
    out.unsaponified += saponifiable * rest.superfat;
    double acids = saponifiable * done;
    switch (fat.form) {
      case FatForm::triglyceride:  // glyceride + 3 alkali = 3 soap + glycerine
        out.glycerine += moles / 3 * kGlycerol;
        acids -= moles * (kGlycerol / 3 - kWater);
        out.soap += acids + moles * (per_mole - kWater);
        break;
      case FatForm::free_acid:  // acid + alkali = soap + water
        out.water += moles * kWater;
        out.soap += acids + moles * (per_mole - kWater);
        break;
      case FatForm::wax:  // the alcohol half is counted with the soap
        out.soap += acids + moles * per_mole;
        break;
    }
  }
  out.water += rest.acid_moles * kWater;
  out.other += rest.dry_grams + rest.acid_moles * (per_mole - kWater);
  return out;
}

}  // namespace barwright::core
