#include "solver/app/books/command_make_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "core/bench/mould.hpp"
#include "core/lye/pot_of.hpp"
#include "core/units/error.hpp"
#include "oils/text/yaml.hpp"
#include "solver/app/books/command_make_plan_batch.hpp"
#include "solver/jobs/blend_job.hpp"
#include "solver/recipe/cure_time.hpp"
#include "solver/recipe/recipe_of_file.hpp"
#include "solver/recipe/sizing.hpp"
#include "targets/files/recipe_file.hpp"

namespace barwright::app {
namespace {

constexpr double kWater = 2 * 1.008 + 15.999;  // g/mol

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

std::string becomes(core::AcidForm form) {
  switch (form) {
    case core::AcidForm::citric_anhydrous:
    case core::AcidForm::citric_monohydrate:
      return "Sodium Citrate";
    case core::AcidForm::lactic:
      return "Sodium Lactate";
    case core::AcidForm::acetic:
      return "Sodium Acetate";
    case core::AcidForm::other:
      break;
  }
  return {};
}

int cure_weeks(const std::vector<oils::Oil>& kinds, const core::Recipe& recipe) {
  std::vector<targets::Composition> parts;
  std::vector<double> shares;
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    parts.push_back(targets::composition(kinds[i]));
    shares.push_back(recipe.oils.at(i).grams / recipe.oils_grams);
  }
  return recipe::cure_weeks(targets::PropertyModel::embedded(), targets::mix(parts, shares),
                            jobs::settings_of(recipe), recipe.products.water / recipe.total_grams);
}

MakePlan recipe_plan(const std::string& path, const oils::Library& library,
                     const oils::Shelf* shelf, int bars) {
  const targets::RecipeFile file = targets::read_recipe(path, library);
  MakePlan out;
  out.file = path;
  out.name = file.name;
  if (file.shelf) out.shelf_file = file.shelf->path;
  const auto make = recipe::size_of(file);
  const int planned = recipe::bars(make);
  out.bars = bars > 0 ? bars : planned;
  // Bars as cut may differ from those planned: what is dosed per bar goes by the plan.
  const auto read =
      recipe::recipe_of_file(file, make, library, shelf, planned > 0 ? planned : out.bars);
  const auto& request = read.request;
  const core::Recipe recipe = core::weigh(request);
  out.cure_hours = 168 * cure_weeks(read.kinds, recipe);
  out.parts.push_back(
      plan_part("bar", request, recipe, core::pot_of(request, recipe), request.scales));
  return out;
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

MakePlan make_plan(const std::string& path, const oils::Library& library, const oils::Shelf* shelf,
                   int bars) {
  const auto document = oils::yaml::Document::from_file(path);
  MakePlan out = document.root().is_map() && document.root().has("batch")
                     ? batch_plan(path, library, shelf, bars)
                     : recipe_plan(path, library, shelf, bars);
  return out;
}

std::optional<std::string> shelf_named_in(const std::string& path) {
  const auto document = oils::yaml::Document::from_file(path);
  if (!document.root().is_map()) return std::nullopt;
  const auto shelf = document.root().get("shelf");
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

core::LabelRequest label_request(const MakePlan& plan, const oils::Library& library) {
  core::LabelRequest out;
  for (const auto& part : plan.parts) {
    core::LabelPart label;
    label.superfat = part.superfat;
    label.poured_grams = part.poured;
    label.cured_grams = part.cured;
    label.cured_water = part.cured_water;
    for (const auto& line : part.lines) {
      if (line.kind == PlanKind::oil) {
        core::PotFat fat = line.fat;
        fat.grams = line.grams;
        fat.name = line.what;  // the sheet may have marked what it is for
        const oils::Oil* oil = library.find(line.what);
        if (oil != nullptr)
          label.fats.push_back(
              {fat, oil->inci, oil->saponified_name, oil->saponified_name_by_analogy});
      } else if (line.kind == PlanKind::alkali) {
        label.alkali.push_back(
            {line.alkali.alkali, line.grams, line.alkali.strength.stated, line.grams});
      } else if (line.kind == PlanKind::water) {
        label.water_grams += line.grams;
      } else {
        core::LabelAddition addition;
        addition.name = line.what;
        addition.grams = line.grams;
        addition.own_role = line.role;
        const auto brought = line.acid       ? line.acid
                             : line.addition ? line.addition->acid
                                             : line.acid;
        const double water = line.addition ? line.addition->water : 0;
        if (brought) {
          core::Acid acid = *brought;
          acid.grams *= line.grams;
          const double moles = core::alkali_moles(acid);
          addition.becomes = becomes(acid.form);
          addition.becomes_grams =
              acid.grams - core::water_grams(acid) + moles * (core::kNaohMolarMass - kWater);
        } else if (water > 0) {
          const double dry = line.grams * (1 - water);
          addition.cured_grams = dry;
          if (!line.liquid) {  // a syrup: what it is named for, and its water with the water
            addition.grams = dry;
            label.water_grams += line.grams - dry;
          }
        }
        out.additions.push_back(std::move(addition));
      }
    }
    out.parts.push_back(std::move(label));
  }
  return out;
}

}  // namespace barwright::app
