// What is added to save a pot, on scales of different steps. Pots small enough for paper: all fat
// at 200 mg KOH/g, all alkali pure potassium hydroxide, so that 1000 g of fat need 200 g of it.
#include <catch2/catch.hpp>

#include "core/lye/rescue.hpp"
#include "core/units/error.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

PotFat lard(double grams) {
  PotFat out = fat("lard", grams, 200, 200, 200);
  out.error = 0;
  return out;
}

PotAlkali potash(double grams) {
  return {Alkali::potassium_hydroxide, grams, Strength{1, 1.0, 1.0}, 0};
}

Scales steps(double step) { return {{step, {}}, {step, {}}}; }

/// Only the nominal superfat counts: the worst case is off the paper.
RescueGoal nominal(double superfat) { return {superfat, -1}; }

std::optional<double> lard_to_add(double fat, double alkali, double step) {
  return fat_to_add({{lard(fat)}, {}, {potash(alkali)}}, lard(0), nominal(0.05), steps(step));
}

double potash_to_add(double alkali, double step) {
  return alkali_to_add({{lard(1000)}, {}, {potash(alkali)}}, potash(0), nominal(0.0512),
                       steps(step));
}

}  // namespace

TEST_CASE("fat to add is the least that is enough, up to the scale's step", "[rescue]") {
  // 200 g of potassium hydroxide at 5 % are for 200 / 0.19 = 1052.63 g of fat.
  CHECK(*lard_to_add(1000, 200, 0.1) == Approx(52.7).epsilon(1e-12));
  CHECK(*lard_to_add(1000, 200, 1) == 53);
  CHECK(*lard_to_add(1000, 200, 1.5) == 54);
  CHECK(*lard_to_add(1000, 200, 5) == 55);
  // 190.01 g are for 1000.053 g: one step, whichever it is; 190 g for what is there.
  for (const double step : {0.1, 1.0, 1.5, 5.0}) {
    INFO(step);
    CHECK(*lard_to_add(1000, 190.01, step) == Approx(step).epsilon(1e-12));
    CHECK(*lard_to_add(1000, 190, step) == 0);
  }
}

TEST_CASE("a pot is not drowned in more than twice its fat", "[rescue]") {
  // For 100 g of fat and a need of g more: (100 + g) x 0.19 g of potassium hydroxide.
  CHECK(*lard_to_add(100, 299.5 * 0.19, 1) == 200);
  CHECK_FALSE(lard_to_add(100, 300.5 * 0.19, 1));
  CHECK_FALSE(lard_to_add(100, 350 * 0.19, 1));
  CHECK_FALSE(lard_to_add(100, 350 * 0.19, 5));
  CHECK(*lard_to_add(100, 250.02 * 0.19, 0.1) == Approx(150.1).epsilon(1e-12));
  // Twice the fat is no whole number of steps: the step beyond it is the last.
  CHECK(*lard_to_add(100, 300.5 * 0.19, 1.5) == 201);
  CHECK_FALSE(lard_to_add(100, 301.5 * 0.19, 1.5));
}

TEST_CASE("a small pot may take 100 g, however little fat is in it", "[rescue]") {
  CHECK(*lard_to_add(10, 109.5 * 0.19, 1) == 100);
  CHECK_FALSE(lard_to_add(10, 110.5 * 0.19, 1));
  CHECK_FALSE(lard_to_add(10, 110.5 * 0.19, 5));
  CHECK(*fat_to_add({{}, {}, {potash(9.5)}}, lard(0), nominal(0.05), steps(1)) == 50);
}

TEST_CASE("the worst case counts for a rescue as the nominal superfat does", "[rescue]") {
  // 190 g in 1000 g of fat, certain to 2 %: at worst 190 / 196 of it is used, 3.06 % over. A floor
  // of 4 % asks for 190 / 0.96 / 0.196 = 1009.78 g, and of what is added the scale may make up 0.1.
  const Pot pot{{lard(1000)}, {}, {potash(190)}};
  CHECK(*fat_to_add(pot, lard(0), {0.05, 0.0306}, steps(0.1)) == 0);
  auto added = lard(0);
  added.error.reset();
  CHECK(*fat_to_add(pot, added, {0.05, 0.04}, steps(0.1)) == Approx(9.9).epsilon(1e-12));
}

TEST_CASE("alkali to add is the most that is safe, down to the scale's step", "[rescue]") {
  // At 5.12 %, 1000 g of fat take 189.76 g.
  CHECK(potash_to_add(0, 0.1) == Approx(189.7).epsilon(1e-12));
  CHECK(potash_to_add(0, 1) == 189);
  CHECK(potash_to_add(0, 1.5) == 189);
  CHECK(potash_to_add(0, 5) == 185);
  for (int already = 1; already <= 40; ++already) {
    INFO(already);
    CHECK(potash_to_add(already, 1) == 189 - already);
  }
  // One step fits, or none does.
  CHECK(potash_to_add(189.61, 0.1) == Approx(0.1).epsilon(1e-12));
  CHECK(potash_to_add(189.71, 0.1) == 0);
  CHECK(potash_to_add(184, 5) == 5);
  CHECK(potash_to_add(185, 5) == 0);
  CHECK(alkali_to_add({}, potash(0), nominal(0.05), steps(1)) == 0);  // no fat, no alkali
}

TEST_CASE("alkali that is added is weighed on the lye scale, with its error", "[rescue]") {
  // A certain pot of 1000 g takes 196 g at its worst; 0.5 g of that the scale may have hidden.
  const Pot pot{{lard(1000)}, {}, {}};
  CHECK(alkali_to_add(pot, potash(0), {0, 0}, {{}, {0.1, 0.5}}) == Approx(195.5).epsilon(1e-12));
  const Pot with = with_alkali(pot, potash(7), 0.5, {{}, {0.1, 0.3}});
  REQUIRE(with.alkali.size() == 1);
  CHECK(with.alkali[0].grams == 0.5);
  CHECK(with.alkali[0].error == 0.3);
  CHECK(with_alkali(pot, potash(7), 0, steps(1)).alkali.empty());
}

TEST_CASE("fat that is added stands in the pot at its grams, and none does not", "[rescue]") {
  const Pot pot{{lard(1000)}, {}, {}};
  const Pot with = with_fat(pot, olive(7), 0.5);
  REQUIRE(with.fats.size() == 2);
  CHECK(with.fats[1].name == "olive");
  CHECK(with.fats[1].grams == 0.5);
  CHECK(with_fat(pot, olive(7), 0).fats.size() == 1);
}

TEST_CASE("a goal is met on it, and not below", "[rescue]") {
  PotCheck check;
  check.superfat = 0.05;
  check.band.low = 0.01;
  CHECK(meets(check, {0.05, 0.01}));
  CHECK_FALSE(meets(check, {0.05, 0.010001}));
  CHECK_FALSE(meets(check, {0.050001, 0.01}));
  check.nothing_left = true;
  CHECK_FALSE(meets(check, {0.05, 0.01}));
  check.nothing_left = false;
  // The last binary digits of a superfat do not matter, a millionth does.
  check.superfat = 0.05 - 5e-10;
  CHECK(meets(check, {0.05, 0.01}));
  check.superfat = 0.05 - 1e-9;
  CHECK(meets(check, {0.05, 0.01}));
  check.superfat = 0.05 - 1e-6;
  CHECK_FALSE(meets(check, {0.05, 0.01}));
}

TEST_CASE("a weight that is none is refused before anything is added to it", "[rescue]") {
  const Pot pot{{lard(-1)}, {}, {potash(10)}};
  CHECK_THROWS_AS(fat_to_add(pot, lard(0), nominal(0.05), steps(1)), Refusal);
  CHECK_THROWS_AS(alkali_to_add(pot, potash(0), nominal(0.05), steps(1)), Refusal);
}
