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
    if (auto acid = acid_of(addition, addition.grams)) {
      acid->name = addition.name;
      pot.acids.push_back(std::move(*acid));
    }
  }
  return pot;
}

InPot lines_of(const RecipeRequest& request, const Recipe& recipe) {
  InPot lines;
  const auto add = [](auto& to, const auto& asked, const auto& weighed) {
    for (std::size_t i = 0; i < asked.size(); ++i) {
      to.push_back(asked[i]);
      to.back().grams = weighed[i].grams;
    }
  };
  add(lines.fats, request.oils, recipe.oils);
  add(lines.fats, request.other_fats, recipe.other_fats);
  add(lines.acids, request.acids, recipe.acids);
  add(lines.additions, request.liquids, recipe.liquids);
  add(lines.additions, request.additives, recipe.additives);
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
