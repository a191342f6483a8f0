#include "solver/recipe/bar_settings.hpp"

namespace barwright::recipe {
namespace {

double dry_lactate_per_oil(const core::Recipe& recipe) {
  double grams = 0;
  for (const auto& line : recipe.additives) {
    if (line.name.find("sodium lactate") != std::string::npos) grams += line.grams;
  }
  return recipe.oils_grams > 0 ? grams / recipe.oils_grams : 0;
}

double salt_per_oil(const core::Recipe& recipe) {
  double grams = 0;
  for (const auto& line : recipe.additives) grams += line.salt;
  return recipe.oils_grams > 0 ? grams / recipe.oils_grams : 0;
}

}  // namespace

targets::BarSettings settings_of(const core::Recipe& recipe) {
  targets::BarSettings out;
  out.superfat = recipe.superfat;
  out.koh_share = recipe.koh.moles;
  out.lye_concentration = recipe.lye_concentration;
  out.sodium_lactate = dry_lactate_per_oil(recipe);
  out.salt = salt_per_oil(recipe);
  return out;
}

}  // namespace barwright::recipe
