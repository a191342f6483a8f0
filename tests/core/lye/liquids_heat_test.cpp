// What acids, sugar and ice do to the warmth of lye, and what acids become.
#include <catch2/catch.hpp>
#include <string>

#include "core/chemistry/heat.hpp"
#include "core/lye/acid.hpp"
#include "core/lye/lye_order.hpp"
#include "core/lye/lye_strength.hpp"
#include "core/units/error.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

Acid citric(double grams) {
  Acid acid;
  acid.name = "citric acid anhydrous";
  acid.grams = grams;
  return acid;
}

bool says(const Recipe& recipe, Severity severity, const std::string& words) {
  for (const auto& note : recipe.notes) {
    if (note.severity == severity && note.text.find(words) != std::string::npos) return true;
  }
  return false;
}

Recipe frozen_milk(double concentration) {
  auto request = plain_request();
  request.lye.water.value = concentration;
  auto milk = whole_milk(150);
  milk.into = Into::lye;
  milk.frozen = true;
  request.liquids = {milk};
  return weigh(request);
}

}  // namespace

// A strong acid gives off 55.8 kJ per mole of alkali (usual tables, recalled).
TEST_CASE("an acid warms the lye it is in by its heat of neutralisation", "[heat]") {
  LyeMix mix{.alkali_grams = 330, .water_grams = 670, .water_celsius = 15, .room_celsius = 18};
  const double plain = fresh_lye_celsius(mix);
  mix.acid_moles = 1;
  CHECK(fresh_lye_celsius(mix) - plain == Approx(55800 / 3.5 / 1000).margin(0.5));
  mix.acid_moles = 0;
  mix.sugar_grams = 50;
  CHECK(fresh_lye_celsius(mix) > plain + 5);
}

TEST_CASE("the heat of a recipe's acid is counted where it is in the lye", "[heat]") {
  auto request = plain_request();
  const double plain = made_celsius(weigh(request));
  request.acids = {citric(20)};
  auto recipe = weigh(request);
  CHECK(recipe.acid_moles_in_lye == Approx(3 * 20 / 192.12).epsilon(1e-4));
  CHECK(made_celsius(recipe) > plain + 5);
  CHECK(says(recipe, Severity::note,
             "citric acid anhydrous becomes sodium citrate in the soap, about 26.9 g"));
  request.acids[0].into = Into::trace;
  CHECK(weigh(request).acid_moles_in_lye == 0);
}

// Molar masses of the anhydrous salts: trisodium citrate 258.07, sodium acetate 82.03, sodium
// lactate 112.06, potassium acetate 98.14 g/mol (IUPAC 2021 atomic masses).
TEST_CASE("acids become the salts chemistry names", "[acid]") {
  CHECK(salt_word(citric(1)) == "citrate");
  CHECK(salt_grams(citric(192.12), Alkali::sodium_hydroxide) == Approx(258.07).margin(0.02));
  Acid vinegar{"vinegar", AcidForm::acetic, 1201, 0.05};
  CHECK(salt_word(vinegar) == "acetate");
  CHECK(salt_grams(vinegar, Alkali::sodium_hydroxide) == Approx(82.03).margin(0.02));
  CHECK(salt_grams(vinegar, Alkali::potassium_hydroxide) == Approx(98.14).margin(0.02));
  Acid lactic{"lactic acid", AcidForm::lactic, 90.08, 1};
  CHECK(salt_word(lactic) == "lactate");
  CHECK(salt_grams(lactic, Alkali::sodium_hydroxide) == Approx(112.06).margin(0.02));
  lactic.form = AcidForm::other;
  CHECK(salt_word(lactic).empty());
  CHECK(salt_grams(lactic, Alkali::sodium_hydroxide) == 0);
}

TEST_CASE("sugar in the lye water is said, and its heat counted", "[heat]") {
  auto request = plain_request();
  const double plain = made_celsius(weigh(request));
  Addition sugar{"sugar", 20, Into::lye};
  sugar.sugar = 1;
  request.additives = {sugar};
  const auto recipe = weigh(request);
  CHECK(recipe.sugar_in_lye == 20);
  CHECK(says(recipe, Severity::danger, "Sugar in the lye water (sugar)"));
  CHECK(made_celsius(recipe) > plain + 1);
  request.additives[0].into = Into::trace;
  CHECK(weigh(request).sugar_in_lye == 0);
}

// First crystals of 35 % lye at 10 C, of 32 % at 5 C: curve of core/chemistry/solubility.cpp.
TEST_CASE("lye made in ice is judged as cold as its ice water", "[lye strength]") {
  const auto recipe = frozen_milk(0.33);
  CHECK(says(recipe, Severity::caution, "in ice water is within 5 C of crystallising"));
  CHECK_FALSE(says(recipe, Severity::caution, "see that it is clear"));
  CHECK_FALSE(says(frozen_milk(0.31), Severity::caution, "crystallising"));
  CHECK_THROWS_AS(frozen_milk(0.38), Refusal);
  LyeSettings warm;
  warm.lye_celsius = 35;
  CHECK_NOTHROW(check_strength(warm, {}, 0.38));
  CHECK_THROWS_AS(check_strength(warm, {}, 0.38, true), Refusal);
}

TEST_CASE("there is never more ice than plain water", "[heat]") {
  const LyeMix mix{
      .alkali_grams = 250, .water_grams = 750, .water_celsius = 15, .room_celsius = 18};
  CHECK(ice_plan(mix).ice_grams > 100);
  const auto some = ice_plan(mix, 100.5);
  CHECK(some.ice_grams == 100);
  CHECK(some.liquid_grams == 650);
  CHECK(ice_plan(mix, 0).ice_grams == 0);
  CHECK(ice_plan(mix, 0).peak_celsius == Approx(ice_plan(mix).without_celsius));
}
