#include <algorithm>
#include <catch2/catch.hpp>

#include "core/lye/recipe.hpp"
#include "core/units/error.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

/// A recipe of random oils, alkalis, acids, liquids and scales.
RecipeRequest random_request(Dice& dice) {
  RecipeRequest request;
  const int count = dice.whole(1, 7);
  for (int i = 0; i < count; ++i) {
    const double typical = dice.between(165, 265);
    auto oil = fat("oil", dice.between(5, 900), typical * (1 - dice.between(0, 0.06)), typical,
                   typical * (1 + dice.between(0, 0.06)), dice.between(0, 0.06));
    if (dice.whole(0, 5) == 0) oil.form = FatForm::free_acid;
    oil.certified = dice.whole(0, 4) == 0;
    request.oils.push_back(oil);
  }
  if (dice.whole(0, 4) == 0) {
    auto wax = fat("wax", dice.between(2, 60), 87, 95, 104, 0.5);
    if (dice.coin()) wax.form = FatForm::wax;
    wax.acid_value = dice.between(0, 24);
    request.oils.push_back(wax);
  }
  if (dice.coin()) request.other_fats.push_back(castor(dice.between(5, 60)));
  const double steps[] = {0.01, 0.1, 0.5, 1};
  request.scales.oils.step = steps[dice.whole(0, 3)];
  request.scales.lye.step = steps[dice.whole(0, 3)];
  auto& lye = request.lye;
  switch (dice.whole(0, 3)) {
    case 0:
      lye.alkali = LyeSettings::Choice::potassium_hydroxide;
      lye.koh_strength = Strength{dice.between(0.85, 0.95), {}, {}};
      break;
    case 1:
      lye.alkali = LyeSettings::Choice::mixed;
      lye.basis = dice.coin() ? MixBasis::grams : MixBasis::fat;
      lye.koh_share = dice.unit();
      lye.koh_strength = Strength{dice.between(0.85, 0.95), {}, {}};
      break;
    default:
      break;
  }
  if (dice.coin()) lye.naoh_strength = Strength{dice.between(0.96, 1), {}, {}};
  lye.superfat = dice.between(0, 0.12);
  lye.never_below = dice.coin() ? 0 : dice.between(0, 0.02);
  lye.water.value = dice.between(0.24, 0.38);
  lye.lye_celsius = dice.between(15, 45);
  if (dice.whole(0, 2) == 0) {
    Acid acid{"acid", dice.coin() ? AcidForm::citric_anhydrous : AcidForm::citric_monohydrate,
              dice.between(1, 30)};
    if (dice.coin()) acid = {"acid", AcidForm::lactic, dice.between(1, 30), 0.88};
    if (dice.coin()) acid.answer = AcidAnswer::let_superfat_rise;
    request.acids.push_back(acid);
  }
  if (dice.whole(0, 2) == 0) request.liquids.push_back(whole_milk(dice.between(5, 120)));
  if (dice.whole(0, 2) == 0) request.additives.push_back(sodium_lactate_syrup(dice.between(1, 30)));
  return request;
}

/// What could stand on the bench while the sheet says `recipe`: each fat a lot from its range and
/// off by up to the scale's error, each alkali as strong as its label allows, each acid short.
/// Returns the superfat of it. Reckoned apart from the engine, from nothing but the printed grams.
double bad_day(const RecipeRequest& request, const Recipe& recipe, Dice& dice, bool worst) {
  const auto draw = [&] { return worst ? 1.0 : dice.unit(); };
  double need = 0;  // mol
  const auto add = [&](const PotFat& asked, double grams) {
    const double floor = asked.certified ? 0.995 : 0.98;
    const auto& span = asked.saponification_value;
    const bool wax = asked.form == FatForm::wax || asked.unsaponifiable > 0.25;
    const double low = wax ? asked.acid_value : std::min(span.low, floor * span.typical);
    const double value = span.typical - draw() * (span.typical - low);
    need += std::max(0.0, grams - draw() * request.scales.oils.step) * value / 56106;
  };
  for (std::size_t i = 0; i < recipe.oils.size(); ++i) {
    add(request.oils[i], recipe.oils[i].grams);
  }
  for (std::size_t i = 0; i < recipe.other_fats.size(); ++i) {
    add(request.other_fats[i], recipe.other_fats[i].grams);
  }
  for (const auto& liquid : recipe.liquids) {
    need += std::max(0.0, liquid.grams - request.scales.lye.step) * 0.035 * 210 / 56106 *
            (worst ? 0.8 : 1.0 - 0.2 * dice.unit());
  }
  double alkali = 0;
  for (const auto& line : recipe.alkali) {
    const bool sodium = line.alkali == Alkali::sodium_hydroxide;
    // Potash stated below 90 % may be any lot sold under a label of 'at least 85 %'.
    const double most = sodium               ? 1.0
                        : line.purity < 0.90 ? 0.92
                                             : std::min(1.0, line.purity + 0.01);
    const double strength = line.purity + draw() * (most - line.purity);
    alkali +=
        (line.grams + draw() * request.scales.lye.step) * strength / (sodium ? 39.997 : 56.106);
  }
  for (std::size_t i = 0; i < recipe.acids.size(); ++i) {
    Acid acid = request.acids[i];
    acid.grams = std::max(0.0, recipe.acids[i].grams - draw() * request.scales.lye.step);
    const double kept = acid.form == AcidForm::lactic ? 1 - 0.05 * draw() : 1;
    alkali -= alkali_moles(acid) * kept;
  }
  return 1 - alkali / need;
}

}  // namespace

TEST_CASE("never free alkali, whatever the lots, scales and labels do", "[property]") {
  Dice dice(20270213);
  int weighed = 0, refused = 0, raised = 0;
  for (int i = 0; i < 6000; ++i) {
    const auto request = random_request(dice);
    Recipe recipe;
    try {
      recipe = weigh(request);
    } catch (const Refusal&) {
      ++refused;
      continue;
    }
    ++weighed;
    INFO(i);
    const double floor = request.lye.never_below;
    // Fat of milk is judged a little more harshly by the engine than here, never less.
    const double worst = bad_day(request, recipe, dice, true);
    REQUIRE(worst >= floor - 1e-9);
    if (request.liquids.empty()) REQUIRE(worst == Approx(recipe.band.low).margin(1e-9));
    for (int day = 0; day < 3; ++day) {
      const double superfat = bad_day(request, recipe, dice, false);
      REQUIRE(superfat >= recipe.band.low - 1e-9);
      REQUIRE(superfat <= recipe.band.high + 1e-9);
    }
    REQUIRE(recipe.band.low <= recipe.superfat);
    REQUIRE(recipe.superfat <= recipe.band.high);
    if (recipe.superfat > request.lye.superfat + 0.004) ++raised;
    for (const auto& line : recipe.alkali) REQUIRE(line.grams <= line.exact_grams + 1e-8);
    REQUIRE(recipe.mass_balance().closes());
    REQUIRE(recipe.products.soap > 0);
  }
  // The dice reach every kind of outcome.
  CHECK(weighed > 2000);
  CHECK(refused > 300);
  CHECK(raised > 300);
}

TEST_CASE("more of any oil never leaves less superfat", "[property]") {
  Dice dice(7);
  for (int i = 0; i < 1000; ++i) {
    const auto request = random_request(dice);
    Recipe recipe;
    try {
      recipe = weigh(request);
    } catch (const Refusal&) {
      continue;
    }
    for (const auto& line : recipe.forgotten) {
      if (line.nothing_left) continue;
      REQUIRE(line.superfat <= recipe.superfat + 1e-12);
    }
  }
}
