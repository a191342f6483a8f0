#include "core/lye/batch.hpp"

#include <catch2/catch.hpp>

#include "core/lye/pot_of.hpp"
#include "core/lye/recipe.hpp"
#include "core/units/error.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

std::vector<LyeNeed> two_parts() {
  return {{"body", {olive(1200), coconut(600), castor(100)}, {}, 0.05, 0},
          {"topping", {palm(200), coconut(120)}, {}, 0.06, 0}};
}

}  // namespace

TEST_CASE("the pot as it stands has the superfat the lye engine gave it", "[batch]") {
  const auto request = plain_request();
  const auto recipe = weigh(request);
  const auto check = check_pot(pot_of(request, recipe), request.scales);
  CHECK(check.superfat == Approx(recipe.superfat).epsilon(1e-12));
  CHECK(check.band.low == Approx(recipe.band.low).epsilon(1e-12));
  CHECK(check.band.high == Approx(recipe.band.high).epsilon(1e-12));
}

TEST_CASE("a forgotten line is what the lye engine foretold", "[batch]") {
  const auto request = plain_request();
  const auto recipe = weigh(request);
  for (std::size_t i = 0; i < request.oils.size(); ++i) {
    Pot pot = pot_of(request, recipe);
    pot.fats[i].grams = 0;
    const auto check = check_pot(pot, request.scales);
    CHECK(check.superfat == Approx(recipe.forgotten[i].superfat).epsilon(1e-12));
    CHECK(check.lye_heavy() == recipe.forgotten[i].lye_heavy);
  }
}

TEST_CASE("one lye, shared out by weight of solution", "[batch]") {
  const auto parts = two_parts();
  const auto lye = share_lye(parts, {}, fine_scales(), 2220);
  REQUIRE(lye.portions.size() == 2);
  REQUIRE(lye.alkali.size() == 1);
  CHECK(lye.concentration == Approx(0.33).margin(2e-4));
  CHECK(lye.making_weight == Approx(lye.alkali[0].grams + lye.water_grams));
  double sum = 0;
  for (std::size_t i = 0; i < 2; ++i) {
    const auto& portion = lye.portions[i];
    sum += portion.solution_grams;
    // By hand: grams of solution x strength, over the sodium hydroxide the fats need.
    double need = 0;
    for (const auto& fat : parts[i].fats) {
      need += fat.grams * fat.saponification_value.typical / 1000 * 39.997 / 56.106;
    }
    CHECK(portion.check.superfat ==
          Approx(1 - portion.solution_grams * lye.concentration / need).epsilon(1e-9));
    CHECK(portion.check.superfat >= portion.raised_superfat - 1e-9);
    CHECK(portion.check.superfat < portion.raised_superfat + 0.002);
    CHECK(portion.check.band.low >= 0);
  }
  CHECK(lye.left_grams == Approx(lye.making_weight - sum));
  CHECK(lye.left_grams >= 0);
  CHECK(lye.left_grams < 1);
}

TEST_CASE("steam not made good makes every portion stronger", "[batch]") {
  const auto parts = two_parts();
  const auto lye = share_lye(parts, {}, fine_scales(), 2220);
  const auto& portion = lye.portions[0];
  const auto after =
      check_untopped(lye, parts[0], portion, 0.03 * lye.making_weight, fine_scales());
  CHECK(after.superfat == Approx(1 - (1 - portion.check.superfat) / 0.97).epsilon(1e-9));
  CHECK(after.superfat < portion.check.superfat);
  // A stronger lye is off by more in the same spoon.
  Pot stronger{parts[0].fats, parts[0].acids, portion.alkali};
  for (auto& line : stronger.alkali) {
    line.grams /= 0.97;
    line.error /= 0.97;
  }
  const auto by_hand = check_pot(stronger, fine_scales());
  CHECK(after.band.low == Approx(by_hand.band.low).epsilon(1e-12));
  CHECK(after.band.high == Approx(by_hand.band.high).epsilon(1e-12));
}

TEST_CASE("a topping too small for the lye scale alone is served from a shared pot", "[batch]") {
  RecipeRequest alone;
  alone.oils = {palm(40), coconut(20)};
  alone.scales = fine_scales();
  alone.scales.lye.step = 1;
  CHECK_THROWS_AS(weigh(alone), Refusal);
  const std::vector<LyeNeed> parts = {{"body", {olive(4000), coconut(2000)}, {}, 0.05, 0},
                                      {"topping", {palm(300), coconut(120)}, {}, 0.05, 0}};
  Scales coarse;  // 1 g and 1 g
  const auto lye = share_lye(parts, {}, coarse, 6420);
  CHECK(lye.portions[1].check.band.low >= 0);
}

TEST_CASE("a shared lye refuses what it cannot make safe", "[batch]") {
  CHECK_THROWS_AS(share_lye({}, {}, fine_scales(), 0), Refusal);
  auto parts = two_parts();
  parts[1].superfat = -0.01;
  CHECK_THROWS_AS(share_lye(parts, {}, fine_scales(), 2220), Refusal);
  parts = two_parts();
  parts[1].fats = {fat("loose", 300, 160, 200, 260)};
  CHECK_THROWS_AS(share_lye(parts, {}, fine_scales(), 2220), Refusal);
}
