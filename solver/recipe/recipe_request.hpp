#pragma once

#include <span>
#include <string>
#include <vector>

#include "core/lye/recipe.hpp"
#include "oils/records/oil.hpp"
#include "targets/files/lye_file.hpp"

namespace barwright::recipe {

/// One oil of a blend, weighed or about to be.
struct PotOil {
  oils::Oil oil;  ///< with the figures its lots give for these grams
  double grams = 0;
};

/// Returns the fat as the lye engine sees it: its saponification value's range with source and
/// mark.
core::PotFat pot_fat(const PotOil& oil);

/// Returns the lye settings a maker wrote, the engine's defaults where nothing is said.
core::LyeSettings lye_settings(const targets::LyeWish& wish);

/// Returns the scales a maker wrote; absent: 1 g for oils and for lye.
core::Scales scales(const targets::Scale& scale);

/// Returns what is asked of core::weigh for this blend. `bars` is for doses per bar (0: not known).
/// Errors: InputError at an addition nothing is known of, or whose dose cannot be worked out.
core::RecipeRequest recipe_request(std::span<const PotOil> oils, const targets::LyeWish& lye,
                                   const targets::Scale& scale, int bars);

}  // namespace barwright::recipe
