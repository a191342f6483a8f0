// What has not been reckoned, weighed or said yet reads as nothing, never as a gram or a promise.
#include <catch2/catch.hpp>

#include "core/lye/batch.hpp"
#include "core/lye/recipe.hpp"
#include "core/lye/rescue.hpp"

using namespace barwright::core;

TEST_CASE("a recipe not yet weighed weighs nothing", "[recipe]") {
  const Recipe recipe;
  for (const double figure :
       {recipe.water_grams, recipe.superfat, recipe.asked_superfat, recipe.lye_concentration,
        recipe.mixed_concentration, recipe.pot_water_grams, recipe.water_to_alkali,
        recipe.oils_grams, recipe.total_grams, recipe.total_water_grams, recipe.products.total(),
        recipe.balance.lines_grams, recipe.balance.products_grams, recipe.balance.asked_grams,
        recipe.balance.allowed_grams, recipe.band.low, recipe.band.high}) {
    CHECK(figure == 0);
  }
  const FatLine fat;
  CHECK(fat.grams == 0);
  CHECK(fat.share_of_oils == 0);
  CHECK_FALSE(fat.certified);
  const Line line;
  CHECK(line.grams == 0);
  CHECK(line.water == 0);
  CHECK_FALSE(line.frozen);
}

TEST_CASE("a shared lye not yet weighed weighs nothing", "[batch]") {
  const SharedLye lye;
  CHECK(lye.water_grams == 0);
  CHECK(lye.making_weight == 0);
  CHECK(lye.concentration == 0);
  CHECK(lye.left_grams == 0);
  const LyePortion portion;
  CHECK(portion.solution_grams == 0);
  CHECK(portion.exact_grams == 0);
  CHECK(portion.raised_superfat == 0);
  CHECK(portion.water_grams == 0);
}

TEST_CASE("alkali not yet weighed is none, and exact", "[pot]") {
  const PotAlkali alkali;
  CHECK(alkali.grams == 0);
  CHECK(alkali.error == 0);
  CHECK(PotCheck{}.superfat == 0);
}

TEST_CASE("unasked, a rescued pot must end at 5 % and never below 0", "[rescue]") {
  CHECK(RescueGoal{}.superfat == 0.05);
  CHECK(RescueGoal{}.never_below == 0);
}
