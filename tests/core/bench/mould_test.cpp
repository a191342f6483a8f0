#include "core/bench/mould.hpp"

#include <catch2/catch.hpp>

#include "core/units/error.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

TEST_CASE("mould volumes", "[mould]") {
  CHECK(volume_ml({260, 82, 52}) == Approx(1108.64));
  CHECK(volume_ml_from_water(998.2) == Approx(1000));
  CHECK(batter_grams(1000) == Approx(985));
  CHECK_THROWS_AS(volume_ml({260, 0, 52}), Refusal);
  CHECK_THROWS_AS(batter_grams(-1), Refusal);
}

TEST_CASE("bars from a log", "[mould]") {
  CHECK(bars_from_log(260, {26, 0, 0}) == 10);
  // Nine cuts of 1 mm: 10 bars need 269 mm.
  CHECK(bars_from_log(268.9, {26, 1, 0}) == 9);
  CHECK(bars_from_log(269, {26, 1, 0}) == 10);
  // Two ends of 5 mm, each with its cut: 9 bars and 8 cuts are 242, with the ends 254.
  CHECK(bars_from_log(254, {26, 1, 5}) == 9);
  CHECK(bars_from_log(253.9, {26, 1, 5}) == 8);
  CHECK_THROWS_AS(bars_from_log(20, {26, 0, 0}), Refusal);
  CHECK_THROWS_AS(bars_from_log(260, {0, 0, 0}), Refusal);
  CHECK_THROWS_AS(bars_from_log(260, {26, -1, 0}), Refusal);
}

TEST_CASE("what the cure takes", "[mould]") {
  // Drying to a tenth of water loses 10 % of a batter made with two of water to one of alkali, and
  // 17 % with water at 38 % of oils (reckoned apart from this program for an everyday blend).
  auto request = plain_request();
  request.lye.water = {WaterRule::Kind::ratio, 2};
  CHECK(1 - cured_fraction(weigh(request)) == Approx(0.10).margin(0.015));
  request.lye.water = {WaterRule::Kind::of_oils, 0.38};
  CHECK(1 - cured_fraction(weigh(request)) == Approx(0.17).margin(0.01));
}

TEST_CASE("a recipe is sized to its batter", "[mould]") {
  auto request = scaled_to_oils(plain_request(), 1);  // shares only
  request.scales = fine_scales();
  request.additives = {sodium_lactate_syrup(0.02)};
  for (const double grams : {1500.0, 3326.4, 12000.0}) {
    const auto recipe = weigh(sized_to_batter(request, grams));
    // Three oils to the gram, the rest to 0.1 g.
    CHECK(recipe.total_grams == Approx(grams).margin(3));
    CHECK(recipe.mass_balance().closes());
  }
  CHECK(oils_per_batter(request) ==
        Approx(1 / weigh(scaled_to_oils(request, 100000)).total_grams * 100000).epsilon(1e-3));
}

TEST_CASE("a recipe is sized to its bars", "[mould]") {
  auto request = plain_request();
  const auto cut = weigh(sized_to_bars(request, 36, 105, Weighed::cut));
  CHECK(cut.total_grams == Approx(36 * 105).margin(3));
  const auto cured = weigh(sized_to_bars(request, 36, 105, Weighed::cured));
  CHECK(cured.total_grams * cured_fraction(cured) == Approx(36 * 105).margin(5));
  const auto waste = weigh(sized_to_bars(request, 36, 105, Weighed::cut, 0.02));
  CHECK(waste.total_grams == Approx(36 * 105 / 0.98).margin(3));
  CHECK_THROWS_AS(sized_to_bars(request, 0, 105, Weighed::cut), Refusal);
  CHECK_THROWS_AS(sized_to_bars(request, 36, 105, Weighed::cut, 1), Refusal);
}
