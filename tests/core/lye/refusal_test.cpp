#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/lye/recipe.hpp"
#include "core/units/error.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

/// Weighs, and checks that it is refused for this reason with a remedy of its own.
void refused(const RecipeRequest& request, const std::string& reason) {
  INFO(reason);
  try {
    weigh(request);
    FAIL("not refused");
  } catch (const Refusal& refusal) {
    INFO(refusal.what());
    CHECK(refusal.reason().find(reason) != std::string::npos);
    CHECK(refusal.reason().back() == '.');
    REQUIRE_FALSE(refusal.remedy().empty());
    CHECK(refusal.remedy().back() == '.');
  }
}

}  // namespace

TEST_CASE("free alkali is refused", "[refusal]") {
  auto request = plain_request();
  request.lye.superfat = -0.01;
  refused(request, "leaves free alkali");
  request.lye.superfat = 0.05;
  request.lye.never_below = -0.01;
  refused(request, "would allow free alkali");
  request.lye.never_below = NAN;
  refused(request, "not a number");
}

TEST_CASE("a superfat that is no soap, or a floor out of reach", "[refusal]") {
  auto request = plain_request();
  request.lye.superfat = 0.7;
  refused(request, "leaves most of the oil as oil");
  request.lye.superfat = 0.05;
  request.lye.never_below = 0.12;
  refused(request, "but the aim is only 5.0 %");
}

TEST_CASE("too loose a range names the oil", "[refusal]") {
  auto request = plain_request();
  request.oils = {olive(100), shea(900)};
  refused(request, "The loosest figure is that of shea butter");
  // With its lot's certificate the same recipe stands.
  request.oils[1].certified = true;
  request.oils[1].saponification_value = {178, 179, 180};
  CHECK_NOTHROW(weigh(request));
  // Capped, too.
  request.oils = {olive(900), shea(100)};
  CHECK_NOTHROW(weigh(request));
}

TEST_CASE("the cap a refusal advises is enough, and not far from the most", "[refusal]") {
  auto request = plain_request();
  request.oils = {olive(100), coconut(50), shea(850)};
  try {
    weigh(request);
    FAIL("not refused");
  } catch (const Refusal& refusal) {
    INFO(refusal.remedy());
    const std::string before = "Keep shea butter to at most ";
    REQUIRE(refusal.remedy().compare(0, before.size(), before) == 0);
    const double cap = std::stod(refusal.remedy().substr(before.size())) * 10;
    const auto with = [&](double grams) {
      request.oils = {olive((1000 - grams) * 2 / 3), coconut((1000 - grams) / 3), shea(grams)};
    };
    with(cap);
    CHECK_NOTHROW(weigh(request));
    with(cap + 40);
    CHECK_THROWS_AS(weigh(request), Refusal);
  }
  request.oils = {shea(1000)};
  refused(request, "The loosest figure is that of shea butter");
}

TEST_CASE("potassium hydroxide without a strength", "[refusal]") {
  auto request = plain_request();
  request.lye.alkali = LyeSettings::Choice::potassium_hydroxide;
  refused(request, "strength of the potassium hydroxide is not stated");
  request.lye.alkali = LyeSettings::Choice::mixed;
  request.lye.koh_share = 0.1;
  refused(request, "strength of the potassium hydroxide is not stated");
}

TEST_CASE("a strength that is none", "[refusal]") {
  auto request = plain_request();
  for (const double stated : {0.0, 0.3, 1.01, 97.0, static_cast<double>(NAN)}) {
    request.lye.naoh_strength = Strength{stated, {}, {}};
    refused(request, "The strength of the sodium hydroxide");
  }
}

TEST_CASE("a mix that is none", "[refusal]") {
  auto request = plain_request();
  request.lye.alkali = LyeSettings::Choice::mixed;
  request.lye.koh_strength = Strength{0.9, {}, {}};
  request.lye.koh_share = 10;
  refused(request, "not between 0 and 100 %");
}

TEST_CASE("too coarse a scale", "[refusal]") {
  auto request = plain_request();
  request.scales.lye.step = 2;
  refused(request, "more than 1 % is not safe");
  request.scales.lye = {0.1, 3.0};
  refused(request, "The lye scale may be off by 3 g");
  request.scales.lye.step = 0;
  refused(request, "not a weight");
}

TEST_CASE("what the scale refusal advises is enough", "[refusal]") {
  auto request = scaled_to_oils(plain_request(), 500);
  request.scales.lye = {};
  try {
    weigh(request);
    FAIL("not refused");
  } catch (const Refusal& refusal) {
    // 67 g of alkali allow 0.67 g.
    CHECK(refusal.remedy() ==
          "Weigh the alkali on a scale good to 0.5 g and say so, or make at least 710 g of oils.");
  }
  request.scales.lye.step = 0.5;
  CHECK_NOTHROW(weigh(request));
  request.scales.lye.step = 1;
  CHECK_NOTHROW(weigh(scaled_to_oils(request, 710)));
}

TEST_CASE("a scale cannot be better than its display", "[refusal]") {
  auto request = plain_request();
  request.scales.lye = {5, 0.0};
  refused(request, "The lye scale may be off by 2.5 g");
}

TEST_CASE("a line too small for the scale", "[refusal]") {
  auto request = plain_request();
  request.oils.push_back(castor(0.3));
  refused(request, "less than the oils scale can show");
  request = plain_request();
  request.acids = {{"citric acid", AcidForm::citric_anhydrous, 0.02}};
  refused(request, "less than one step of the lye scale");
}

TEST_CASE("saponification values that are none", "[refusal]") {
  auto request = plain_request();
  request.oils[0].saponification_value = {0.184, 0.190, 0.196};
  refused(request, "cannot be mg KOH per g");
  request.oils[0].saponification_value = {131, 135, 140};  // NaOH figures
  refused(request, "cannot be mg KOH per g");
  request.oils[0].saponification_value = {195, 190, 196};
  refused(request, "not a range with its typical value inside");
  request.oils[0].saponification_value = {184, NAN, 196};
  refused(request, "not a range");
  request = plain_request();
  request.oils[0].unsaponifiable = 1.5;
  refused(request, "unsaponifiable share");
}

TEST_CASE("weights that are none", "[refusal]") {
  auto request = plain_request();
  request.oils[1].grams = -300;
  refused(request, "The weight of 'coconut'");
  request.oils[1].grams = NAN;
  refused(request, "The weight of 'coconut'");
  request.oils.clear();
  refused(request, "has no oils");
  request = plain_request();
  request.acids = {{"citric acid", AcidForm::citric_anhydrous, -1}};
  refused(request, "not a weight");
}

TEST_CASE("acid that leaves no alkali for the fat", "[refusal]") {
  auto request = plain_request();
  request.acids = {
      {"citric acid", AcidForm::citric_anhydrous, 150, 1, 0, 0, AcidAnswer::let_superfat_rise}};
  refused(request, "The acids use up so much");
  request.acids[0].answer = AcidAnswer::correct;
  CHECK_NOTHROW(weigh(request));
}

TEST_CASE("an acid without its strength", "[refusal]") {
  auto request = plain_request();
  request.acids = {{"lactic acid", AcidForm::lactic, 20}};
  refused(request, "The strength of 'lactic acid' is not stated");
  request.acids = {{"tartaric", AcidForm::other, 20, 1}};
  refused(request, "no molar mass");
}

TEST_CASE("milk, sugar and alcohol in the lye pot", "[refusal]") {
  auto request = plain_request();
  auto milk = whole_milk(200);
  milk.into = Into::lye;
  request.liquids = {milk};
  refused(request, "Milk and cream in hot lye");
  request.liquids[0].frozen = true;
  CHECK_NOTHROW(weigh(request));
  request.liquids[0] = whole_milk(100);
  CHECK_NOTHROW(weigh(request));
  Addition beer{"beer", 200, Into::lye};
  beer.water = 0.92;
  beer.alcohol = 0.05;
  request.liquids = {beer};
  refused(request, "Alcohol in 'beer'");
  request.liquids[0].frozen = true;
  refused(request, "Alcohol in 'beer'");
  Addition sugar{"sugar", 10, Into::lye};
  sugar.sugar = 1;
  request.liquids.clear();
  request.additives = {sugar};
  CHECK_NOTHROW(weigh(request));
  // 15 % of the water the lye is made in, judgement.
  const double water = weigh(request).pot_water_grams;
  request.additives[0].grams = std::floor(0.15 * water);
  CHECK_NOTHROW(weigh(request));
  request.additives[0].grams = std::ceil(0.15 * water) + 1;
  refused(request, "of sugar in");
  request.additives[0].into = Into::trace;
  CHECK_NOTHROW(weigh(request));
}

TEST_CASE("a liquid whose parts do not make sense", "[refusal]") {
  auto request = plain_request();
  Addition odd{"odd milk", 100};
  odd.water = 0.9;
  odd.fat = 0.2;
  odd.fat_saponification_value = {210, 228, 240};
  request.liquids = {odd};
  refused(request, "do not make sense together");
  request.liquids[0].fat = 0.05;
  request.liquids[0].fat_saponification_value = {};
  refused(request, "no saponification value");
}

TEST_CASE("lye that does not stay clear, or does not dissolve", "[refusal]") {
  auto request = plain_request();
  request.lye.water.value = 0.38;
  request.lye.lye_celsius = 10;
  refused(request, "crystallises at 10 C");
  request.lye.lye_celsius = 30;
  CHECK_NOTHROW(weigh(request));
  request.lye.water.value = 0.55;
  refused(request, "above 50 %");
  request.lye.water.value = 1.0;
  refused(request, "water setting");
  request.lye.water = {WaterRule::Kind::ratio, 0};
  refused(request, "water setting");
  request = plain_request();
  request.lye.lye_celsius = -5;
  refused(request, "not one to work at");
}

TEST_CASE("late liquids leave too little water for the alkali", "[refusal]") {
  auto request = plain_request();
  request.liquids = {whole_milk(250)};
  refused(request, "The lye pot would hold");
}

TEST_CASE("a batch of nothing", "[refusal]") {
  CHECK_THROWS_AS(scaled(plain_request(), 0), Refusal);
  CHECK_THROWS_AS(scaled(plain_request(), -1), Refusal);
  CHECK_THROWS_AS(sodium_lactate_syrup(20, 60), Refusal);
}
