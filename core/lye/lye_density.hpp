#pragma once

#include <span>

#include "core/lye/alkali.hpp"

namespace barwright::core {

/// One line of a published density table.
struct LyeDensity {
  double specific_gravity = 0;  ///< at 60 F (15.5 C), water 1
  double percent = 0;           ///< alkali by weight
};

/// Returns the table: Simmons & Appleton, The Handbook of Soap Manufacture (1908), appendix C
/// (NaOH) and D (KOH), read; pure alkali, 60 F.
std::span<const LyeDensity> lye_density_table(Alkali alkali);

/// Returns specific gravity at 60 F of lye with this strength (mass fraction), and the reverse;
/// linear between lines and down to water. Errors: std::out_of_range beyond the table.
double lye_specific_gravity(Alkali alkali, double concentration);
double lye_concentration(Alkali alkali, double specific_gravity);

/// Twaddell degrees: (specific gravity - 1) * 200. Baume for liquids heavier than water, modulus
/// 145 (recalled): 145 - 145 / specific gravity; the older modulus 144.3 can be passed.
double twaddell(double specific_gravity);
double specific_gravity_of_twaddell(double degrees);
double baume(double specific_gravity, double modulus = 145);
double specific_gravity_of_baume(double degrees, double modulus = 145);

}  // namespace barwright::core
