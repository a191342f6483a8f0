#include "core/lye/rescue.hpp"

#include <catch2/catch.hpp>

#include "core/lye/recipe.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

Pot plain_pot(const RecipeRequest& request) {
  Pot pot;
  pot.fats = request.oils;
  for (const auto& line : weigh(request).alkali) {
    pot.alkali.push_back({line.alkali, line.grams, Strength{}, request.scales.lye.error_grams()});
  }
  return pot;
}

}  // namespace

TEST_CASE("20 g too much sodium hydroxide is met by fat, the least that is enough", "[rescue]") {
  const auto request = plain_request();
  Pot pot = plain_pot(request);
  pot.alkali[0].grams += 20;
  CHECK(check_pot(pot, request.scales).lye_heavy());
  const RescueGoal goal{0.05, 0};
  const auto grams = fat_to_add(pot, olive(0), goal, request.scales);
  REQUIRE(grams);
  CHECK(meets(check_pot(with_fat(pot, olive(0), *grams), request.scales), goal));
  CHECK_FALSE(meets(check_pot(with_fat(pot, olive(0), *grams - 1), request.scales), goal));
  // By hand: 20 g of NaOH saponify 20 x 56.106 / 39.997 / 0.190 = 147.7 g of olive; 5 % over: 155.
  CHECK(*grams >= 148);
  CHECK(*grams <= 165);
}

TEST_CASE("any slip, once rescued, leaves the worst case at or above the floor", "[rescue]") {
  Dice dice(20270213);
  for (int round = 0; round < 400; ++round) {
    auto request = plain_request();
    request.oils = {olive(dice.whole(200, 900)), coconut(dice.whole(100, 500)),
                    castor(dice.whole(60, 150)), palm(dice.whole(50, 400))};
    Pot pot = plain_pot(request);
    const RescueGoal goal{dice.between(0.03, 0.06), dice.between(0, 0.01)};
    const auto slip = dice.whole(0, 2);
    const auto line = static_cast<std::size_t>(dice.whole(0, 3));
    if (slip == 0) pot.fats[line].grams = 0;
    if (slip == 1) pot.alkali[0].grams += dice.between(1, 60);
    if (slip == 2) std::swap(pot.fats[line].grams, pot.fats[(line + 1) % 4].grams);
    const auto grams = fat_to_add(pot, olive(0), goal, request.scales);
    REQUIRE(grams);
    const auto after = check_pot(with_fat(pot, olive(0), *grams), request.scales);
    CHECK(after.band.low >= goal.never_below);
    CHECK(after.superfat >= goal.superfat - 1e-9);
    if (*grams >= 1) {
      CHECK_FALSE(meets(check_pot(with_fat(pot, olive(0), *grams - 1), request.scales), goal));
    }
  }
}

TEST_CASE("lye is added only as far as the worst case allows", "[rescue]") {
  const auto request = plain_request();
  Pot pot = plain_pot(request);
  pot.alkali[0].grams -= 30;
  const RescueGoal goal{0.05, 0};
  const double grams = alkali_to_add(pot, {}, goal, request.scales);
  CHECK(grams > 20);
  CHECK(grams <= 30);
  CHECK(meets(check_pot(with_alkali(pot, {}, grams, request.scales), request.scales), goal));
  CHECK_FALSE(
      meets(check_pot(with_alkali(pot, {}, grams + 0.1, request.scales), request.scales), goal));
  CHECK(alkali_to_add(plain_pot(request), {}, goal, request.scales) == 0);
}

TEST_CASE("a fat that binds no alkali rescues nothing", "[rescue]") {
  const auto request = plain_request();
  Pot pot = plain_pot(request);
  pot.alkali[0].grams += 20;
  CHECK_FALSE(fat_to_add(pot, fat("mineral oil", 0, 0, 0, 0), {0.05, 0}, request.scales));
}
