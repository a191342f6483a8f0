#pragma once

#include <span>
#include <string_view>

#include "core/lye/alkali.hpp"
#include "core/units/figure.hpp"

namespace barwright::core {

/// First crystals of a cooling lye: strength (mass fraction), temperature (C) and what falls out.
struct FirstCrystals {
  double concentration = 0;
  double celsius = 0;
  std::string_view solid;  ///< "ice", "NaOH hydrate (3.5 H2O)", ...
};

/// Returns the published curve the functions below read between, weakest first, all recalled.
std::span<const FirstCrystals> crystal_curve(Alkali alkali);
inline constexpr std::string_view kCrystalCurveSource =
    "Seidell, Solubilities of Inorganic Compounds; makers' caustic soda handbooks";
inline constexpr Mark kCrystalCurveMark = Mark::recalled;

/// Returns the temperature (C) at which lye of this strength (mass fraction) starts to crystallise.
double first_crystals_celsius(Alkali alkali, double concentration);
/// Returns the strongest lye (mass fraction) that stays clear at this temperature, reckoned so that
/// every weaker one (above the ice field) stays clear too.
double strongest_clear(Alkali alkali, double celsius);

/// Returns the most salt (g NaCl per 100 g of clear solution) that dissolves in sodium hydroxide
/// lye of this strength at 20 C: a few points, recalled.
double salt_solubility(double naoh_concentration);

}  // namespace barwright::core
