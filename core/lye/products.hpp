#pragma once

#include "core/lye/recipe.hpp"

namespace barwright::core {

/// Returns what these fats (g, with typical saponification values), alkali, acids (mol of alkali
/// used) and water become at this superfat; `dry` is g of everything else that does not react.
Products products_of(std::span<const PotFat> fats, std::span<const AlkaliLine> alkali,
                     double acid_moles, double superfat, double water, double dry);

}  // namespace barwright::core
