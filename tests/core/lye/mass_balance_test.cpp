#include <catch2/catch.hpp>

#include "core/lye/recipe.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

bool closes(double lines, double products, double asked, double allowed) {
  return MassBalance{lines, products, asked, allowed}.closes();
}

}  // namespace

TEST_CASE("what goes in comes out, to a billionth", "[recipe]") {
  CHECK(closes(1000, 1000, 1000, 0));
  CHECK(closes(1000, 1000 + 0.9e-6, 1000, 0));
  CHECK(closes(1000, 1000 - 0.9e-6, 1000, 0));
  CHECK_FALSE(closes(1000, 1000 + 1.1e-6, 1000, 0));
  CHECK_FALSE(closes(1000, 1000 - 1.1e-6, 1000, 0));
  CHECK_FALSE(closes(1000, 2000, 1000, 5));  // what rounding may move is of no help here
  CHECK(closes(0, 0, 0, 0));
}

TEST_CASE("the scales move a recipe no further than they round", "[recipe]") {
  CHECK(closes(1000, 1000, 998, 2));
  CHECK(closes(1000, 1000, 1002, 2));
  CHECK(closes(1000, 1000, 998 - 0.9e-6, 2));
  CHECK(closes(1000, 1000, 1002 + 0.9e-6, 2));
  CHECK_FALSE(closes(1000, 1000, 998 - 1.1e-6, 2));
  CHECK_FALSE(closes(1000, 1000, 1002 + 1.1e-6, 2));
}

TEST_CASE("every line adds half a step of its scale to what rounding may move", "[recipe]") {
  auto request = plain_request();
  request.scales.oils.step = 5;
  // Three oils, half of 5 g each; soda down by up to 0.1 g; water by half of that.
  auto balance = weigh(request).mass_balance();
  CHECK(balance.allowed_grams == Approx(3 * 2.5 + 0.1 + 0.05).epsilon(1e-12));
  const auto plain = weigh(request);
  CHECK(balance.asked_grams ==
        Approx(1000 + plain.alkali[0].exact_grams + plain.alkali[0].grams * 0.67 / 0.33)
            .epsilon(1e-12));
  request.other_fats = {castor(24)};
  request.acids = {{"citric acid", AcidForm::citric_anhydrous, 10.04}};
  request.liquids = {whole_milk(50)};
  request.additives = {sodium_lactate_powder(20.04)};
  // One fat and three small lines more.
  const auto rich = weigh(request);
  balance = rich.mass_balance();
  CHECK(balance.allowed_grams == Approx(4 * 2.5 + 0.1 + 4 * 0.05).epsilon(1e-12));
  // As asked: 24 g of castor, whatever the scale shows; water the milk brings is no line of its
  // own.
  CHECK(balance.asked_grams == Approx(1024 + 10.04 + 50 + 20.04 + rich.alkali[0].exact_grams +
                                      (rich.alkali[0].grams * 0.67 / 0.33 - 50 * 0.875))
                                   .epsilon(1e-12));
  CHECK(balance.lines_grams == rich.total_grams);
  CHECK(balance.closes());
}

TEST_CASE("liquids with more water than is wanted leave no plain water to ask for", "[recipe]") {
  auto request = plain_request();
  Addition tea{"tea", 400, Into::lye};
  tea.water = 1;
  request.liquids = {tea};
  const auto recipe = weigh(request);
  CHECK(recipe.mass_balance().asked_grams ==
        Approx(1400 + recipe.alkali[0].exact_grams).epsilon(1e-12));
}
