#include "solver/books/make_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "core/bench/mould.hpp"
#include "core/lye/pot_of.hpp"
#include "core/units/error.hpp"
#include "oils/text/yaml.hpp"
#include "solver/books/make_plan_batch.hpp"
#include "solver/books/plan_part.hpp"
#include "solver/recipe/bar_settings.hpp"
#include "solver/recipe/cure_time.hpp"
#include "solver/recipe/recipe_of_file.hpp"
#include "solver/recipe/sizing.hpp"
#include "targets/files/recipe_file.hpp"
#include "targets/files/workshop.hpp"

namespace barwright::books {
namespace {

int cure_weeks(const std::vector<oils::Oil>& kinds, const core::Recipe& recipe) {
  std::vector<targets::Composition> parts;
  std::vector<double> shares;
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    parts.push_back(targets::composition(kinds[i]));
    shares.push_back(recipe.oils.at(i).grams / recipe.oils_grams);
  }
  return recipe::cure_weeks(targets::PropertyModel::embedded(), targets::mix(parts, shares),
                            recipe::settings_of(recipe),
                            recipe.products.water / recipe.total_grams);
}

MakePlan recipe_plan(const std::string& path, const oils::Library& library,
                     const oils::Shelf* shelf, int bars) {
  const targets::RecipeFile file = targets::read_recipe(path, library);
  MakePlan out;
  out.file = path;
  out.name = file.name;
  if (file.shelf) out.shelf_file = file.shelf->path;
  out.packed_here = file.packed_in.has_value();
  out.packed_in = file.packed_in.value_or(targets::PackedIn{});
  const auto make = recipe::size_of(file);
  const int planned = recipe::bars(make);
  out.bars = bars > 0 ? bars : planned;
  // Bars as cut may differ from those planned: what is dosed per bar goes by the plan.
  const auto read =
      recipe::recipe_of_file(file, make, library, shelf, planned > 0 ? planned : out.bars);
  const auto& request = read.request;
  const core::Recipe recipe = core::weigh(request);
  out.cure_hours = 168 * cure_weeks(read.kinds, recipe);
  const auto workshop = targets::workshop_beside(path);
  if (workshop && workshop->cure_hours)
    out.cure_hours = std::max(out.cure_hours, *workshop->cure_hours);
  out.parts.push_back(
      plan_part("bar", request, recipe, core::pot_of(request, recipe), request.scales));
  return out;
}

}  // namespace

MakePlan make_plan(const std::string& path, const oils::Library& library, const oils::Shelf* shelf,
                   int bars) {
  const auto document = oils::yaml::Document::from_file(path);
  MakePlan out = document.root().is_map() && document.root().has("batch")
                     ? batch_plan(path, library, shelf, bars)
                     : recipe_plan(path, library, shelf, bars);
  if (!out.packed_here) {
    if (const auto workshop = targets::workshop_beside(path)) out.packed_in = workshop->packed_in;
  }
  return out;
}

std::optional<std::string> shelf_named_in(const std::string& path) {
  const auto document = oils::yaml::Document::from_file(path);
  if (!document.root().is_map()) return std::nullopt;
  const auto shelf = document.root().get("shelf");
  if (!shelf) {
    const auto workshop = targets::workshop_beside(path);
    if (workshop && workshop->shelf) return workshop->shelf->path;
  }
  if (!shelf || !shelf->is_scalar()) return std::nullopt;
  namespace fs = std::filesystem;
  const fs::path named(shelf->text());
  return (named.is_absolute() ? named : fs::path(path).parent_path() / named).string();
}

core::PotCheck check_weights(const PlanPart& part) {
  core::InPot lines;
  std::vector<core::PotAlkali> alkali;
  for (const auto& line : part.lines) {
    if (line.kind == PlanKind::oil) {
      lines.fats.push_back(line.fat);
      lines.fats.back().grams = line.grams;
    } else if (line.kind == PlanKind::alkali) {
      alkali.push_back(line.alkali);
      alkali.back().grams = line.grams;
    } else if (line.acid) {
      lines.acids.push_back(*line.acid);
      lines.acids.back().grams *= line.grams;
    } else if (line.addition) {
      lines.additions.push_back(*line.addition);
      lines.additions.back().grams = line.grams;
    }
  }
  core::Pot pot = core::pot_of(lines, part.scales);
  pot.alkali = std::move(alkali);
  return core::check_pot(pot, part.scales);
}

double pieces_for(double each, int bars) { return std::ceil(each * bars - 1e-9); }

}  // namespace barwright::books
