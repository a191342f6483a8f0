#pragma once

#include "core/lye/recipe.hpp"

namespace barwright::core {

/// What else a pot comes to, beside its fats and its alkali.
struct PotRest {
  double acid_moles = 0;   ///< of alkali that acids use up
  double superfat = 0;     ///< fraction of the fats that finds no lye
  double water_grams = 0;  ///< all of it
  double dry_grams = 0;    ///< everything that does not react
};

/// Returns what these fats (g, with typical saponification values) and this alkali become, g.
Products products_of(std::span<const PotFat> fats, std::span<const AlkaliLine> alkali,
                     const PotRest& rest);

}  // namespace barwright::core
