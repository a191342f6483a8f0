#pragma once

#include <vector>

#include "core/lye/addition.hpp"
#include "core/lye/batch_pot.hpp"
#include "core/lye/recipe.hpp"

namespace barwright::core {

/// How far the fat that milk and the like bring may differ by lot, of itself (judgement).
inline constexpr double kBroughtFatDoubt = 0.20;

/// What is weighed into a pot, alkali and plain water apart: grams as weighed.
struct InPot {
  std::vector<PotFat> fats;
  std::vector<Acid> acids;
  std::vector<Addition> additions;  ///< liquids first
};

/// Returns what meets the lye, alkali apart: the fats as they are, then "fat of NAME" of every
/// addition that brings fat (its weight in doubt by the lye scale, and by kBroughtFatDoubt); the
/// acids, then those the additions bring. Additions that weigh nothing bring nothing.
Pot pot_of(const InPot& lines, const Scales& scales);

/// Returns the request's lines at the recipe's weights.
InPot lines_of(const RecipeRequest& request, const Recipe& recipe);

/// Returns the whole pot of a recipe: its lines, liquids and additives and what they bring
/// included, and its alkali at the request's strengths. The one way from a recipe to what is
/// judged.
Pot pot_of(const RecipeRequest& request, const Recipe& recipe);

}  // namespace barwright::core
