#include "solver/batch/part_lye.hpp"

#include <algorithm>

#include "core/lye/pot_of.hpp"
#include "core/lye/products.hpp"

namespace barwright::batch {

targets::LyeWish merged(const targets::LyeWish& batch, const targets::LyeWish& part) {
  targets::LyeWish out = batch;
  const auto lay = [](auto& under, const auto& over) {
    if (over) under = over;
  };
  if (part.alkali) {
    out.alkali = part.alkali;
    out.koh_share = part.koh_share;
    out.koh_basis = part.koh_basis;
  }
  lay(out.naoh_strength, part.naoh_strength);
  lay(out.koh_strength, part.koh_strength);
  lay(out.superfat, part.superfat);
  lay(out.never_below, part.never_below);
  lay(out.raise, part.raise);
  if (part.concentration || part.water_per_alkali || part.water_of_oils) {
    out.concentration = part.concentration;
    out.water_per_alkali = part.water_per_alkali;
    out.water_of_oils = part.water_of_oils;
  }
  lay(out.lye_celsius, part.lye_celsius);
  lay(out.oils_celsius, part.oils_celsius);
  if (!part.acids.empty()) out.acids = part.acids;
  if (!part.liquids.empty()) out.liquids = part.liquids;
  if (!part.into_lye.empty()) out.into_lye = part.into_lye;
  return out;
}

void take_portion(PartPlan& plan, const core::LyePortion& portion, const core::Scales& scales) {
  plan.portion = portion;
  plan.pot.alkali = portion.alkali;
  plan.check = core::check_pot(plan.pot, scales);
  core::Recipe& recipe = plan.recipe;
  double before = recipe.water_grams, after = portion.water_grams, pure = 0, weighed = 0;
  for (const auto& line : recipe.alkali) before += line.grams;
  recipe.alkali.clear();
  for (const auto& line : portion.alkali) {
    recipe.alkali.push_back({line.alkali, line.grams, line.strength.stated, line.grams});
    after += line.grams;
    weighed += line.grams;
    pure += line.grams * line.strength.stated;
  }
  recipe.total_water_grams += portion.water_grams - recipe.water_grams;
  recipe.water_grams = portion.water_grams;
  recipe.total_grams += after - before;
  recipe.superfat = plan.check.superfat;
  recipe.band = plan.check.band;
  recipe.lye_concentration = pure / (weighed + recipe.total_water_grams);
  recipe.mixed_concentration = pure / portion.solution_grams;
  recipe.pot_water_grams = portion.water_grams;
  recipe.water_to_alkali = recipe.total_water_grams / weighed;
  double fat_grams = 0;  // milk fat and the like too: it is no dry matter
  for (const auto& fat : plan.pot.fats) fat_grams += fat.grams;
  const double dry = recipe.total_grams - fat_grams - weighed - recipe.total_water_grams;
  recipe.products = core::products_of(plan.pot.fats, recipe.alkali,
                                      {.acid_moles = plan.check.acid_moles,
                                       .superfat = recipe.superfat,
                                       .water_grams = recipe.total_water_grams,
                                       .dry_grams = std::max(0.0, dry)});
  recipe.forgotten = core::if_forgotten(plan.pot, scales);
}

}  // namespace barwright::batch
