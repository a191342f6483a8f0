#include "core/lye/lye_order.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/lye/lye_cautions.hpp"
#include "core/units/error.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

std::string names(const Recipe& recipe) {
  std::string out;
  for (const auto& step : lye_order(recipe)) out += (out.empty() ? "" : " > ") + step.name;
  return out;
}

Acid vinegar(double grams) {
  Acid acid;
  acid.name = "vinegar";
  acid.form = AcidForm::acetic;
  acid.grams = grams;
  acid.strength = 0.05;
  return acid;
}

Addition tea(double grams) {
  Addition out{"tea", grams, Into::lye};
  out.water = 1;
  return out;
}

Addition salt(double grams) {
  Addition out{"salt", grams, Into::lye};
  out.salt = 1;
  return out;
}

Addition frozen_milk(double grams) {
  Addition out = whole_milk(grams);
  out.into = Into::lye;
  out.frozen = true;
  return out;
}

}  // namespace

// That acid and liquids go into the water before the alkali, salt is dissolved first, milk is
// frozen, and lactate joins the cooled lye: common practice, no source.
TEST_CASE("the lye pot is filled in the order of work", "[lye order]") {
  auto request = plain_request();
  CHECK(names(weigh(request)) == "water > sodium hydroxide");
  request.acids = {vinegar(50)};
  request.liquids = {tea(60), frozen_milk(70)};
  request.additives = {sodium_lactate_syrup(30), salt(4)};
  const auto recipe = weigh(request);
  CHECK(names(recipe) ==
        "water > vinegar > tea > salt > whole milk > sodium hydroxide > sodium lactate syrup");
  CHECK(lye_order_words(lye_order(recipe)) ==
        "water, then vinegar, then tea, then salt, then the frozen whole milk, then the alkali "
        "into it by the spoonful, the pot standing in ice water, never the reverse; once no grain "
        "of alkali is left and below 45 C, sodium lactate syrup");
}

TEST_CASE("without plain water nothing is dissolved in water that is not there", "[lye order]") {
  auto request = plain_request();
  Acid citric;
  citric.name = "citric acid";
  citric.grams = 10;
  request.acids = {citric};
  request.liquids = {tea(400)};
  request.additives = {salt(4)};
  auto recipe = weigh(request);
  REQUIRE(recipe.water_grams == 0);
  CHECK(names(recipe) == "tea > citric acid > salt > sodium hydroxide");
  request.liquids = {frozen_milk(400)};
  recipe = weigh(request);
  REQUIRE(recipe.water_grams == 0);
  for (const auto& step : lye_order(recipe)) {
    if (step.name == "citric acid" || step.name == "salt") {
      CHECK(step.how == "stir it into the whole milk before that is frozen");
    }
  }
}

// What dissolves the alkali is there when it goes in. 33 % asked: by definition pure / (alkali +
// all water), so late water leaves the pot stronger.
TEST_CASE("late liquids do not weaken the lye they join", "[lye order]") {
  auto request = plain_request();
  request.additives = {sodium_lactate_syrup(100, 0.4)};  // 60 g of water, late
  const auto recipe = weigh(request);
  const double alkali = recipe.alkali[0].grams;
  CHECK(recipe.lye_concentration == Approx(0.33).margin(2e-4));
  CHECK(recipe.pot_water_grams == recipe.water_grams);
  CHECK(recipe.mixed_concentration == Approx(alkali / (alkali + recipe.water_grams)));
  CHECK(recipe.mixed_concentration > 0.37);
  request.additives[0].grams = 300;  // 180 g of 285 g would be late: above 50 %
  CHECK_THROWS_AS(weigh(request), Refusal);
  // An acid at trace is late too.
  request.additives.clear();
  request.acids = {vinegar(180)};
  CHECK(weigh(request).mixed_concentration == Approx(0.33).margin(2e-3));
  request.acids[0].into = Into::trace;
  CHECK_THROWS_AS(weigh(request), Refusal);
}

// Common practice, no source: lye below 30 C, the milk cold, a thin stream.
TEST_CASE("milk may join made lye once that is cool, and is told how", "[lye order]") {
  auto request = plain_request();
  request.liquids = {whole_milk(150)};
  request.liquids[0].into = Into::cooled_lye;
  const auto recipe = weigh(request);
  CHECK(names(recipe) == "water > sodium hydroxide > whole milk");
  CHECK(lye_order(recipe).back().how ==
        "into the made lye, once it is clear and below 30 C, cold, in a thin stream");
  CHECK(
      lye_order_words(lye_order(recipe)) ==
      "water, then the alkali into it a little at a time, never the reverse; once it is clear and "
      "below 30 C, whole milk");
  // Its water is not there for the alkali to dissolve in.
  request.liquids[0].grams = 300;
  CHECK_THROWS_AS(weigh(request), Refusal);
}

TEST_CASE("syrups do not go into cooled lye", "[lye order]") {
  auto request = plain_request();
  Addition honey{"honey", 20, Into::cooled_lye};
  honey.sugar = 0.8;
  request.additives = {honey};
  CHECK_THROWS_AS(weigh(request), Refusal);
  request.additives[0].frozen = true;  // frozen helps only while the alkali goes in
  CHECK_THROWS_AS(weigh(request), Refusal);
}

TEST_CASE("every lye has its cautions, and strong lye is said to come near boiling",
          "[lye cautions]") {
  auto request = plain_request();
  request.lye.lye_celsius = 35;
  const auto texts = [&] {
    std::string out;
    for (const auto& note : lye_cautions(weigh(request))) {
      out += std::string(word(note.severity)) + ": " + note.text + "\n";
    }
    return out;
  };
  request.lye.water.value = 0.20;
  CHECK_THAT(texts(), !Catch::Contains("boiling"));
  request.lye.water.value = 0.50;
  const std::string strong = texts();
  CHECK_THAT(strong, Catch::Contains("danger: This lye heats itself to boiling"));
  CHECK_THAT(strong, Catch::Contains("No glass, no aluminium"));
  CHECK_THAT(strong, Catch::Contains("fumes"));
  CHECK_THAT(strong, Catch::Contains("caution: Skin:") && Catch::Contains("caution: Eyes:"));
  CHECK_THAT(strong, Catch::Contains("at least 15 minutes; then to a doctor"));
}
