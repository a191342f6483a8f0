#pragma once

<<<<<<< HEAD:core/lye/solubility.hpp
#include <span>
#include <string_view>

#include "core/lye/alkali.hpp"
#include "core/units/figure.hpp"
    =======
#include "core/lye/alkali.hpp"
    >>>>>>> a16113d (core: the crystal curve holds what the strongest clear lye is read from, no more; tests: both curves point by point):core/solubility.hpp

    namespace barwright::core {

  /// Returns the strongest lye (mass fraction) that stays clear at this temperature, reckoned so
  /// that every weaker one (above the ice field) stays clear too; 0 where none does.
  double strongest_clear(Alkali alkali, double celsius);

  /// Returns the most salt (g NaCl per 100 g of clear solution) that dissolves in sodium hydroxide
  /// lye of this strength at 20 C: a few points, recalled.
  double salt_solubility(double naoh_concentration);

}  // namespace barwright::core
