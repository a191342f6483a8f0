#pragma once

#include "core/chemistry/alkali.hpp"

namespace barwright::core {

/// Returns the strongest lye (mass fraction) that stays clear at this temperature, reckoned so that
/// every weaker one (above the ice field) stays clear too; 0 where none does.
double strongest_clear(Alkali alkali, double celsius);

/// Returns the most salt (g NaCl per 100 g of clear solution) that dissolves in sodium hydroxide
/// lye of this strength at 20 C: a few points, recalled.
double salt_solubility(double naoh_concentration);

}  // namespace barwright::core
