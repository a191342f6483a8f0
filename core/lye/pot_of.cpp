#include "core/lye/pot_of.hpp"

#include <algorithm>

namespace barwright::core {

Pot pot_of(const InPot& lines, const Scales& scales) {
  Pot pot{lines.fats, lines.acids, {}};
  for (const auto& addition : lines.additions) {
    if (!(addition.grams > 0)) continue;
    if (addition.fat > 0) {
      PotFat fat;
      fat.name = "fat of " + addition.name;
      fat.grams = addition.grams * addition.fat;
      fat.saponification_value = addition.fat_saponification_value;
      fat.mark = Mark::recalled;
      fat.error = std::max(scales.lye.error_grams() * addition.fat, kBroughtFatDoubt * fat.grams);
      pot.fats.push_back(std::move(fat));
    }
    if (addition.acid) {
      Acid acid = *addition.acid;
      acid.name = addition.name;
      acid.grams *= addition.grams;
      pot.acids.push_back(std::move(acid));
    }
  }
  return pot;
}

InPot lines_of(const RecipeRequest& request, const Recipe& recipe) {
  InPot lines{request.oils, request.acids, request.liquids};
  for (std::size_t i = 0; i < lines.fats.size(); ++i) lines.fats[i].grams = recipe.oils[i].grams;
  for (std::size_t i = 0; i < request.other_fats.size(); ++i) {
    lines.fats.push_back(request.other_fats[i]);
    lines.fats.back().grams = recipe.other_fats[i].grams;
  }
  for (std::size_t i = 0; i < lines.acids.size(); ++i) lines.acids[i].grams = recipe.acids[i].grams;
  for (std::size_t i = 0; i < lines.additions.size(); ++i) {
    lines.additions[i].grams = recipe.liquids[i].grams;
  }
  for (std::size_t i = 0; i < request.additives.size(); ++i) {
    lines.additions.push_back(request.additives[i]);
    lines.additions.back().grams = recipe.additives[i].grams;
  }
  return lines;
}

Pot pot_of(const RecipeRequest& request, const Recipe& recipe) {
  Pot pot = pot_of(lines_of(request, recipe), request.scales);
  for (const auto& line : recipe.alkali) {
    pot.alkali.push_back({line.alkali, line.grams, strength_of(request.lye, line.alkali),
                          request.scales.lye.error_grams()});
  }
  return pot;
}

}  // namespace barwright::core
