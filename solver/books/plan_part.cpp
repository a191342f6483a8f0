#include "solver/books/plan_part.hpp"

#include <algorithm>

#include "core/bench/mould.hpp"

namespace barwright::books {
namespace {

void add_fats(PlanPart& part, const std::vector<core::FatLine>& weighed,
              const std::vector<core::PotFat>& asked, bool blend) {
  for (std::size_t i = 0; i < weighed.size(); ++i) {
    PlanLine line;
    line.what = weighed[i].name;
    line.kind = PlanKind::oil;
    line.grams = weighed[i].grams;
    line.blend = blend;
    for (const auto& fat : asked) {
      if (fat.name == weighed[i].name) line.fat = fat;
    }
    part.lines.push_back(std::move(line));
  }
}

void add_additions(PlanPart& part, const std::vector<core::Line>& weighed,
                   const std::vector<core::Addition>& asked, bool liquids) {
  for (std::size_t i = 0; i < weighed.size(); ++i) {
    PlanLine line;
    line.what = weighed[i].name;
    line.grams = weighed[i].grams;
    line.liquid = liquids;
    line.addition = asked.at(i);
    part.lines.push_back(std::move(line));
  }
}

}  // namespace

oils::Oil oil_as_held(const std::string& name, double grams, const oils::Library& library,
                      const oils::Shelf* shelf) {
  return shelf != nullptr ? shelf->figures_for(name, grams) : *library.find(name);
}

PlanPart plan_part(const std::string& name, const core::RecipeRequest& request,
                   const core::Recipe& recipe, const core::Pot& pot, const core::Scales& scales) {
  PlanPart part;
  part.name = name;
  part.superfat = recipe.superfat;
  part.poured = recipe.total_grams;
  part.cured = recipe.total_grams * core::cured_fraction(recipe);
  part.cured_water = std::min(recipe.products.water, part.cured * core::cured_water().span.typical);
  part.scales = scales;
  add_fats(part, recipe.oils, request.oils, true);
  add_fats(part, recipe.other_fats, request.other_fats, false);
  for (const auto& alkali : pot.alkali) {
    PlanLine line;
    line.what = core::name(alkali.alkali);
    line.kind = PlanKind::alkali;
    line.grams = alkali.grams;
    line.alkali = alkali;
    part.lines.push_back(std::move(line));
  }
  if (recipe.water_grams > 0) {
    PlanLine water;
    water.what = "water";
    water.kind = PlanKind::water;
    water.grams = recipe.water_grams;
    part.lines.push_back(std::move(water));
  }
  for (std::size_t i = 0; i < recipe.acids.size(); ++i) {
    PlanLine line;
    line.what = recipe.acids[i].name;
    line.grams = recipe.acids[i].grams;
    line.acid = request.acids.at(i);
    line.acid->grams = 1;
    part.lines.push_back(std::move(line));
  }
  add_additions(part, recipe.liquids, request.liquids, true);
  add_additions(part, recipe.additives, request.additives, false);
  return part;
}

}  // namespace barwright::books
