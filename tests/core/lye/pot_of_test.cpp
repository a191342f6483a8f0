#include "core/lye/pot_of.hpp"

#include <catch2/catch.hpp>

#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

Addition vinegar_honey(double grams) {
  Addition out;
  out.name = "sour honey";
  out.grams = grams;
  out.water = 0.2;
  out.acid = Acid{"", AcidForm::lactic, 0.10, 0.9, 0, 0, AcidAnswer::correct};
  return out;
}

RecipeRequest rich_request() {
  RecipeRequest request = plain_request();
  request.other_fats = {shea(40)};
  request.acids = {{"citric acid anhydrous", AcidForm::citric_anhydrous, 12, 1}};
  Addition milk = whole_milk(150);
  milk.into = Into::trace;
  request.liquids = {milk};
  request.additives = {vinegar_honey(30)};
  return request;
}

}  // namespace

TEST_CASE("what additions bring stands in the pot: fat with its doubt, acids", "[pot]") {
  const auto request = rich_request();
  const auto recipe = weigh(request);
  const Pot pot = pot_of(request, recipe);
  REQUIRE(pot.fats.size() == 5);
  CHECK(pot.fats[3].name == "shea butter");
  CHECK(pot.fats[4].name == "fat of whole milk");
  CHECK(pot.fats[4].grams == Approx(150 * 0.035).epsilon(1e-12));
  CHECK(*pot.fats[4].error == Approx(0.20 * 150 * 0.035).epsilon(1e-12));
  REQUIRE(pot.acids.size() == 2);
  CHECK(pot.acids[1].name == "sour honey");
  CHECK(pot.acids[1].grams == Approx(3).epsilon(1e-12));
  REQUIRE(pot.alkali.size() == 1);
  CHECK(pot.alkali[0].error == Approx(0.1));
}

TEST_CASE("a recipe's band is its pot's, whatever the additions bring", "[pot]") {
  const auto request = rich_request();
  const auto recipe = weigh(request);
  const auto check = check_pot(pot_of(request, recipe), request.scales);
  CHECK(check.superfat == Approx(recipe.superfat).epsilon(1e-12));
  CHECK(check.band.low == Approx(recipe.band.low).epsilon(1e-12));
  CHECK(check.band.high == Approx(recipe.band.high).epsilon(1e-12));
  REQUIRE(recipe.forgotten.size() == 7);
  CHECK(recipe.forgotten[6].line == "sour honey");
}

TEST_CASE("a pot without fat is free alkali at its worst, never safe by zeros", "[pot]") {
  Pot pot;
  pot.alkali = {{Alkali::sodium_hydroxide, 10, {}, 0.1}};
  const auto check = check_pot(pot, fine_scales());
  CHECK(check.nothing_left);
  CHECK(check.lye_heavy());
  CHECK(check.band.low < 0);
}

TEST_CASE("alkali that was never weighed has no error of a scale", "[pot]") {
  Pot pot;
  pot.fats = {olive(100)};
  pot.alkali = {{Alkali::sodium_hydroxide, 0, {}, 5}};
  CHECK(check_pot(pot, fine_scales()).band.low == 1);
}
