#include "solver/recipe/recipe_request.hpp"

#include "solver/recipe/known_additions.hpp"

namespace barwright::recipe {
namespace {

std::optional<core::Strength> strength(const std::optional<targets::StrengthWish>& wish) {
  if (!wish) return std::nullopt;
  return core::Strength{.stated = wish->stated, .least = wish->least, .most = wish->most};
}

double dose_grams(const targets::Dose& dose, double oil_grams, double water_grams, int bars) {
  switch (dose.basis) {
    case targets::Basis::total:
      return dose.value;
    case targets::Basis::per_kg_oils:
      return dose.value * oil_grams / 1000;
    case targets::Basis::per_bar:
      if (bars == 0) {
        dose.written.fail("a dose per bar, but the number of bars is not known",
                          "give the dose per kg of oils, or the bars under 'make:'");
      }
      return dose.value * bars;
    case targets::Basis::of_oils:
      return dose.value * oil_grams;
    case targets::Basis::of_water:
      return dose.value * water_grams;
    case targets::Basis::per_kg_batter:
      dose.written.fail("a dose per kg of batter is for colours and additions of a batch's parts",
                        "count what goes into the lye on the oils, such as 20 g per kg oils");
  }
  return 0;
}

}  // namespace

core::PotFat pot_fat(const PotOil& oil) {
  const core::Figure& figure = oil.oil.saponification_value;
  // The range is what the worst case rests on: where it is the weaker of the two, its mark is
  // shown.
  const core::Mark mark = oils::weakest_mark(figure);
  core::PotFat fat;
  fat.name = oil.oil.name;
  fat.grams = oil.grams;
  fat.saponification_value = figure.span;
  fat.unsaponifiable = oil.oil.unsaponifiable.span.typical / 100;
  fat.form = oils::fat_form(oil.oil.form);
  fat.source = figure.source;
  fat.mark = mark;
  fat.certified = figure.mark == core::Mark::certificate;
  fat.remark = oil.oil.confirmed;
  if (oil.oil.acid_value) fat.acid_value = oil.oil.acid_value->span.low;
  return fat;
}

core::LyeSettings lye_settings(const targets::LyeWish& wish) {
  core::LyeSettings out;
  using Alkali = targets::LyeWish::Alkali;
  using Choice = core::LyeSettings::Choice;
  if (wish.alkali) {
    out.alkali = *wish.alkali == Alkali::sodium      ? Choice::sodium_hydroxide
                 : *wish.alkali == Alkali::potassium ? Choice::potassium_hydroxide
                                                     : Choice::mixed;
  }
  out.koh_share = wish.koh_share.value_or(0);
  switch (wish.koh_basis) {
    case targets::LyeWish::KohBasis::moles:
      out.basis = core::MixBasis::moles;
      break;
    case targets::LyeWish::KohBasis::grams:
      out.basis = core::MixBasis::grams;
      break;
    case targets::LyeWish::KohBasis::fat:
      out.basis = core::MixBasis::fat;
      break;
  }
  out.naoh_strength = strength(wish.naoh_strength);
  out.koh_strength = strength(wish.koh_strength);
  if (wish.superfat) out.superfat = *wish.superfat;
  if (wish.never_below) out.never_below = *wish.never_below;
  if (wish.raise) out.may_raise = *wish.raise;
  using Kind = core::WaterRule::Kind;
  if (wish.concentration) out.water = {Kind::concentration, *wish.concentration};
  if (wish.water_per_alkali) out.water = {Kind::ratio, *wish.water_per_alkali};
  if (wish.water_of_oils) out.water = {Kind::of_oils, *wish.water_of_oils};
  out.lye_celsius = wish.lye_celsius;
  return out;
}

core::Scales scales(const targets::Scale& scale) {
  core::Scales out;
  if (scale.oils_grams) out.oils.step = *scale.oils_grams;
  if (scale.lye_grams) out.lye.step = *scale.lye_grams;
  return out;
}

core::RecipeRequest recipe_request(std::span<const PotOil> oils, const targets::LyeWish& lye,
                                   const targets::Scale& scale, int bars) {
  core::RecipeRequest out;
  double total = 0;
  for (const auto& oil : oils) {
    if (oil.grams <= 0) continue;
    out.oils.push_back(pot_fat(oil));
    total += oil.grams;
  }
  out.lye = lye_settings(lye);
  out.scales = scales(scale);
  // A dose on the water needs the water of the plain recipe first.
  double water = 0;
  for (const auto* list : {&lye.acids, &lye.liquids, &lye.into_lye}) {
    for (const auto& addition : *list) {
      if (addition.dose.basis == targets::Basis::of_water && water == 0) {
        water = core::weigh(out).total_water_grams;
      }
    }
  }
  for (const auto& acid : lye.acids) {
    out.acids.push_back(known_acid(acid, dose_grams(acid.dose, total, water, bars)));
  }
  for (const auto& liquid : lye.liquids) {
    out.liquids.push_back(known_liquid(liquid, dose_grams(liquid.dose, total, water, bars)));
  }
  for (const auto& other : lye.into_lye) {
    const double grams = dose_grams(other.dose, total, water, bars);
    // Acids may stand in either list; what they are decides.
    if (is_acid(other)) {
      out.acids.push_back(known_acid(other, grams));
    } else {
      out.additives.push_back(known_addition(other, grams));
    }
  }
  return out;
}

}  // namespace barwright::recipe
