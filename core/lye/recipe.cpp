#include "core/lye/recipe.hpp"

#include <algorithm>
#include <cmath>

#include "core/chemistry/heat.hpp"
#include "core/chemistry/solubility.hpp"
#include "core/lye/lye_strength.hpp"
#include "core/lye/pot_of.hpp"
#include "core/lye/products.hpp"
#include "core/units/error.hpp"
#include "core/units/format.hpp"

namespace barwright::core {

namespace {

constexpr double kHeatingSugar = 0.01;  // of the oils, judgement
constexpr double kMostSugar = 0.15;     // of the water the lye is made in, judgement

PotFat weighed_fat(PotFat fat, double step, double& allowed) {
  const double asked = fat.grams;
  if (!(asked > 0) || !std::isfinite(asked)) {
    throw Refusal("The weight of '" + fat.name + "' is not above zero.",
                  "Give it a weight, or take the line out.");
  }
  fat.grams = rounded(asked, step);
  if (!(fat.grams > 0)) {
    throw Refusal(fat.name + ", " + grams_text(asked) + ", is less than the oils scale can show.",
                  "Use a finer scale or a larger batch, or leave it out.");
  }
  allowed += step / 2;
  return fat;
}

/// Rounds a line of the lye scale. What is too little to show stays as asked, with a note.
double weighed_small(const std::string& name, double asked, bool matters, double step,
                     double& allowed, std::vector<Note>& notes) {
  if (!std::isfinite(asked) || asked < 0) {
    throw Refusal("The weight of '" + name + "' is not a weight.", "Give it in grams.");
  }
  allowed += step / 2;
  const double shown = rounded(asked, step);
  if (shown > 0 || asked == 0) return shown;
  if (matters) {
    throw Refusal(name + ", " + grams_text(asked) + ", is less than one step of the lye scale.",
                  "Use a finer scale or a larger batch, or leave it out.");
  }
  notes.push_back({Severity::caution, name + ", " + grams_text(asked) +
                                          ", is less than one step of the scale: weigh it on a "
                                          "finer one."});
  return asked;
}

/// What the additions of one list bring along.
struct Brought {
  double water = 0;         ///< g, all
  double water_in_lye = 0;  ///< g, there before the alkali dissolves
  double salt_in_lye = 0;   ///< g
  double sugar = 0;         ///< g
  double sugar_in_lye = 0;  ///< g, there before the alkali
  double acid_in_lye = 0;   ///< mol of alkali it uses up there
  bool ice = false;         ///< whether the lye is made in ice
  double dry = 0;           ///< g of neither water nor fat
  std::vector<Addition> weighed;
};

std::vector<Line> weigh_additions(std::span<const Addition> additions, const Scales& scales,
                                  double& allowed, std::vector<Note>& notes, Brought& brought) {
  std::vector<Line> lines;
  for (const auto& addition : additions) {
    check(addition);
    const bool matters = addition.fat > 0 || addition.acid.has_value();
    const double grams =
        weighed_small(addition.name, addition.grams, matters, scales.lye.step, allowed, notes);
    lines.push_back({addition.name, grams, addition.into, addition.frozen, grams * addition.water,
                     grams * addition.salt, scorches(addition)});
    brought.water += grams * addition.water;
    brought.sugar += grams * addition.sugar;
    brought.dry += grams * (1 - addition.water - addition.fat);
    if (addition.into == Into::lye) {
      brought.water_in_lye += grams * addition.water;
      brought.sugar_in_lye += grams * addition.sugar;
      brought.ice = brought.ice || (addition.frozen && grams > 0);
      if (const auto acid = acid_of(addition, grams)) brought.acid_in_lye += alkali_moles(*acid);
    }
    if (in_lye(addition.into)) {
      brought.salt_in_lye += grams * addition.salt;
    }
    brought.weighed.push_back(addition);
    brought.weighed.back().grams = grams;
  }
  return lines;
}

FatLine line_of(const PotFat& fat, double oils_grams) {
  return {fat.name, fat.grams,  fat.grams / oils_grams, fat.saponification_value,
          fat.mark, fat.source, fat.certified};
}

void add_addition_notes(const Addition& addition, std::vector<Note>& notes) {
  if (!(addition.grams > 0)) return;
  if (in_lye(addition.into) && !addition.caution.empty()) {
    notes.push_back({Severity::danger, addition.caution});
  }
  if (addition.alcohol > kTraceOfIt) {
    notes.push_back(
        {Severity::caution,
         "Alcohol in the " + addition.name +
             " hastens trace and boils out of a warm pot: flat, cold, a little at a time, "
             "no flame near."});
  }
  if (addition.into == Into::cooled_lye && scorches(addition)) {
    notes.push_back(
        {Severity::danger,
         "The " + addition.name + " goes cold, in a thin stream, into lye below " +
             fixed(kMilkLyeCelsius, 0) +
             " C whose pot stands in cold water: in warmer lye it scorches and can boil "
             "over."});
  }
  if (!(addition.sugar > 0) || addition.into == Into::cooled_lye) return;
  if (addition.into == Into::lye && addition.frozen) {
    notes.push_back(
        {Severity::danger,
         "Dissolve the alkali in the frozen " + addition.name +
             " a spoonful at a time, the bowl standing in ice: once it is warm its sugar "
             "scorches and it can boil over."});
  } else if (addition.into != Into::lye) {
    notes.push_back({Severity::caution, "Not into hot lye, where it scorches: " + addition.name +
                                            " joins once the lye is in the oils."});
  }
}

/// One word for all that is sweet in the water before the alkali, frozen things apart.
void add_sweet_lye_note(std::initializer_list<std::span<const Addition>> all,
                        std::vector<Note>& notes) {
  std::string names;
  for (const auto& additions : all) {
    for (const auto& each : additions) {
      if (each.into != Into::lye || each.frozen || !(each.sugar > kTraceOfIt) || !(each.grams > 0))
        continue;
      names += (names.empty() ? "" : ", ") + each.name;
    }
  }
  if (names.empty()) return;
  notes.push_back({Severity::danger,
                   "Sugar in the lye water (" + names +
                       "): all of it dissolved, the water cold, before the alkali; then the alkali "
                       "slower than usual, the pot in cold water: this lye runs hotter and turns "
                       "yellow to brown."});
}

std::string salt_name(const Acid& acid, const KohShares& koh) {
  const std::string alkali = koh.moles <= 0   ? "sodium "
                             : koh.moles >= 1 ? "potassium "
                                              : "sodium and potassium ";
  return alkali + salt_word(acid);
}

/// What acids become, and what they do to the lye they meet.
void add_acid_notes(std::span<const Acid> acids, const KohShares& koh, std::vector<Note>& notes) {
  for (const auto& acid : acids) {
    const double moles = alkali_moles(acid);
    if (salt_word(acid).empty() || !(moles > 0)) continue;
    const Alkali alkali = koh.moles >= 0.5 ? Alkali::potassium_hydroxide : Alkali::sodium_hydroxide;
    std::string text = acid.name + " becomes " + salt_name(acid, koh) + " in the soap, about " +
                       grams_text(rounded(salt_grams(acid, alkali), 0.1));
    if (acid.into == Into::lye) {
      text += "; it warms the lye by about " +
              fixed(moles * neutralisation_heat().span.typical, 0) +
              " kJ more, counted in how hot the lye gets";
    }
    notes.push_back({Severity::note, text + "."});
  }
}

void check_sugar(const Brought& brought, double pot_water) {
  if (brought.sugar_in_lye <= kMostSugar * pot_water) return;
  throw Refusal("The water for the lye would hold " +
                    grams_text(rounded(brought.sugar_in_lye, 0.1)) + " of sugar in " +
                    grams_text(rounded(pot_water, 0.1)) +
                    " of water: so sweet a lye scorches and can boil over.",
                "Keep it to " + percent_text(kMostSugar) +
                    " of that water, or add the sugar at trace, dissolved.");
}

/// Grams of salt that this lye keeps clear, at 20 C.
double salt_that_dissolves(double water, double pure_alkali) {
  const double lye = water + pure_alkali;
  const double share = salt_solubility(pure_alkali / lye) / 100;
  return share / (1 - share) * lye;
}

void check_salt(double salt, double dissolves, std::vector<Note>& notes) {
  if (salt <= dissolves) return;
  notes.push_back(
      {Severity::caution,
       "Of the " + grams_text(salt) + " of salt in the lye about " +
           grams_text(std::round(dissolves)) +
           " dissolve; the rest makes the bar gritty. Add it at trace, or less of it."});
}

double sum(std::span<const Line> lines) {
  double grams = 0;
  for (const auto& line : lines) grams += line.grams;
  return grams;
}

double sum(std::span<const FatLine> lines) {
  double grams = 0;
  for (const auto& line : lines) grams += line.grams;
  return grams;
}

/// What was asked for and what rounding to the scale may change of it; g.
struct Rounding {
  double asked = 0, allowed = 0;
};

std::vector<PotFat> weigh_fats(const RecipeRequest& request, Recipe& recipe, Rounding& rounding) {
  std::vector<PotFat> fats;
  for (const auto& oil : request.oils) {
    fats.push_back(weighed_fat(oil, request.scales.oils.step, rounding.allowed));
    recipe.oils_grams += fats.back().grams;
    rounding.asked += oil.grams;
  }
  for (const auto& fat : request.other_fats) {
    fats.push_back(weighed_fat(fat, request.scales.oils.step, rounding.allowed));
    rounding.asked += fat.grams;
  }
  for (std::size_t i = 0; i < fats.size(); ++i) {
    (i < request.oils.size() ? recipe.oils : recipe.other_fats)
        .push_back(line_of(fats[i], recipe.oils_grams));
  }
  return fats;
}

std::vector<Acid> weigh_acids(const RecipeRequest& request, Recipe& recipe, Rounding& rounding,
                              Brought& brought) {
  std::vector<Acid> acids;
  for (const auto& acid : request.acids) {
    Acid weighed = acid;
    weighed.grams = weighed_small(acid.name, acid.grams, true, request.scales.lye.step,
                                  rounding.allowed, recipe.notes);
    rounding.asked += acid.grams;
    acids.push_back(weighed);
    const double water = water_grams(weighed);
    recipe.acids.push_back({acid.name, weighed.grams, acid.into, false, water});
    brought.water += water;
    if (acid.into == Into::lye) {
      brought.water_in_lye += water;
      brought.acid_in_lye += alkali_moles(weighed);
    }
    brought.dry += weighed.grams - water;
  }
  return acids;
}

/// Fills in alkali, water and strengths; returns the plain water asked for, below 0 where what was
/// brought is more than that.
double weigh_lye(Lye& lye, const Brought& brought, double step, Recipe& recipe,
                 Rounding& rounding) {
  recipe.alkali = lye.alkali;
  recipe.superfat = lye.superfat;
  recipe.asked_superfat = lye.asked_superfat;
  recipe.band = lye.band;
  recipe.koh = lye.koh;
  recipe.forgotten = std::move(lye.forgotten);
  double alkali = 0, pure = 0;
  for (const auto& line : recipe.alkali) {
    alkali += line.grams;
    pure += line.pure_grams();
    rounding.asked += line.exact_grams;
    rounding.allowed += step;
  }
  const double plain = lye.water_grams - brought.water;
  recipe.water_grams = std::max(0.0, rounded(plain, step));
  rounding.asked += std::max(0.0, plain);
  rounding.allowed += step / 2;
  recipe.total_water_grams = recipe.water_grams + brought.water;
  recipe.lye_concentration = pure / (alkali + recipe.total_water_grams);
  recipe.pot_water_grams = recipe.water_grams + brought.water_in_lye;
  recipe.mixed_concentration = pure / (alkali + recipe.pot_water_grams);
  recipe.water_to_alkali = recipe.total_water_grams / alkali;
  recipe.total_grams = sum(recipe.oils) + sum(recipe.other_fats) + sum(recipe.acids) +
                       sum(recipe.liquids) + sum(recipe.additives) + alkali + recipe.water_grams;
  recipe.acid_moles_in_lye = brought.acid_in_lye;
  recipe.sugar_in_lye = brought.sugar_in_lye;
  recipe.salt_dissolves = salt_that_dissolves(recipe.pot_water_grams, pure);
  return plain;
}

void add_recipe_notes(const RecipeRequest& request, const Lye& lye, const Pot& pot,
                      const Brought& brought, double plain_water, Recipe& recipe) {
  auto& notes = recipe.notes;
  notes.insert(notes.end(), lye.notes.begin(), lye.notes.end());
  for (const auto& fat : pot.fats) {
    if (!fat.remark.empty()) notes.push_back({Severity::caution, fat.remark});
  }
  if (plain_water < -request.scales.lye.step) {
    notes.push_back({Severity::caution,
                     "The liquids bring more water than was asked for: lye concentration becomes " +
                         percent_text(recipe.lye_concentration) + "."});
  }
  const auto strength =
      check_strength(request.lye, recipe.koh, recipe.mixed_concentration, brought.ice);
  check_sugar(brought, recipe.pot_water_grams);
  add_acid_notes(std::span(pot.acids).first(request.acids.size()), recipe.koh, notes);
  notes.insert(notes.end(), strength.begin(), strength.end());
  check_salt(brought.salt_in_lye, recipe.salt_dissolves, notes);
  const auto all = {std::span<const Addition>(request.liquids),
                    std::span<const Addition>(request.additives)};
  for (const auto& additions : all) {
    for (const auto& addition : additions) add_addition_notes(addition, notes);
  }
  add_sweet_lye_note(all, notes);
  if (brought.sugar > kHeatingSugar * recipe.oils_grams) {
    notes.push_back({Severity::caution,
                     "This much sugar makes the batter heat up on its own: keep the mould "
                     "uncovered and cool."});
  }
  sort_notes(notes);
}

}  // namespace

Recipe weigh(const RecipeRequest& request) {
  check(request.scales);
  if (request.oils.empty()) {
    throw Refusal("The recipe has no oils.", "Give at least one oil with a weight.");
  }
  const auto& scales = request.scales;
  Recipe recipe;
  Rounding rounding;
  Brought brought;
  const auto fats = weigh_fats(request, recipe, rounding);
  recipe.liquids =
      weigh_additions(request.liquids, scales, rounding.allowed, recipe.notes, brought);
  recipe.additives =
      weigh_additions(request.additives, scales, rounding.allowed, recipe.notes, brought);
  for (const auto& liquid : request.liquids) rounding.asked += liquid.grams;
  for (const auto& additive : request.additives) rounding.asked += additive.grams;
  const auto acids = weigh_acids(request, recipe, rounding, brought);

  const Pot pot = pot_of({fats, acids, brought.weighed}, scales);
  Lye lye = lye_for(pot.fats, pot.acids, request.lye, scales, recipe.oils_grams);
  const double plain_water = weigh_lye(lye, brought, scales.lye.step, recipe, rounding);
  add_recipe_notes(request, lye, pot, brought, plain_water, recipe);
  recipe.products = products_of(pot.fats, recipe.alkali,
                                {.acid_moles = lye.acid_moles,
                                 .superfat = recipe.superfat,
                                 .water_grams = recipe.total_water_grams,
                                 .dry_grams = brought.dry});
  recipe.balance = {recipe.total_grams, recipe.products.total(), rounding.asked, rounding.allowed};
  return recipe;
}

RecipeRequest scaled(const RecipeRequest& request, double factor) {
  if (!(factor > 0) || !std::isfinite(factor)) {
    throw Refusal("A recipe cannot be scaled to nothing.", "Give a batch above zero.");
  }
  RecipeRequest out = request;
  for (auto* fats : {&out.oils, &out.other_fats}) {
    for (auto& fat : *fats) fat.grams *= factor;
  }
  for (auto& acid : out.acids) acid.grams *= factor;
  for (auto* additions : {&out.liquids, &out.additives}) {
    for (auto& addition : *additions) addition.grams *= factor;
  }
  return out;
}

RecipeRequest scaled_to_oils(const RecipeRequest& request, double oils_grams) {
  double oils = 0;
  for (const auto& oil : request.oils) oils += oil.grams;
  if (!(oils > 0)) {
    throw Refusal("The recipe has no oils.", "Give at least one oil with a weight.");
  }
  return scaled(request, oils_grams / oils);
}

bool MassBalance::closes() const {
  return std::abs(lines_grams - products_grams) <= 1e-9 * lines_grams &&
         std::abs(lines_grams - asked_grams) <= allowed_grams + 1e-9 * lines_grams;
}

}  // namespace barwright::core
