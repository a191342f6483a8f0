// The judge of pots where nothing is left, where a line is a crumb, and on the very edge of free
// alkali.
#include <catch2/catch.hpp>

#include "core/lye/batch_pot.hpp"
#include "core/lye/pot_of.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

constexpr double kNa = 39.997, kK = 56.106, kCitric = 192.123;

PotAlkali soda(double grams) {
  return {Alkali::sodium_hydroxide, grams, Strength{1, 1.0, 1.0}, 0.1};
}

}  // namespace

TEST_CASE("without any fat, all of the alkali is over", "[pot]") {
  const auto check = check_pot({{olive(0)}, {}, {soda(10)}}, fine_scales());
  CHECK(check.nothing_left);
  CHECK(check.lye_heavy());
  CHECK(check.superfat == -1);
  CHECK(check.band.low == -1);
  CHECK(check.band.high == -1);
  CHECK(check.dosed_moles == Approx(10 / kNa).epsilon(1e-5));
}

TEST_CASE("a pot is lye-heavy where its worst case is, whatever its nominal superfat", "[pot]") {
  PotCheck check;
  check.superfat = 0.05;
  check.band = {0, 0.1};
  CHECK_FALSE(check.lye_heavy());
  check.band.low = -0.001;
  CHECK(check.lye_heavy());
  check.band.low = 0.01;
  check.nothing_left = true;
  CHECK(check.lye_heavy());
}

TEST_CASE("at best the scale of the oils shows too little", "[pot]") {
  // 1000 g of coconut on a scale good to 1 g: perhaps 1001 g at 265 mg/g; soda perhaps 99.9 g.
  const auto check = check_pot({{coconut(1000)}, {}, {soda(100)}}, fine_scales());
  CHECK(check.band.high == Approx(1 - 99.9 / kNa / (1001 * 0.265 / kK)).epsilon(1e-5));
  CHECK(check.band.low == Approx(1 - 100.1 / kNa / (999 * 0.248 / kK)).epsilon(1e-5));
}

TEST_CASE("half a gram of acid is an acid, with an error of the scale's", "[pot]") {
  const Acid crumb{"citric acid", AcidForm::citric_anhydrous, 0.5};
  const auto check = check_pot({{coconut(1000)}, {crumb}, {soda(100)}}, fine_scales());
  // At best there is 0.1 g more of it.
  CHECK(check.band.high ==
        Approx(1 - (99.9 / kNa - 3 * 0.6 / kCitric) / (1001 * 0.265 / kK)).epsilon(1e-6));
  CHECK(check.band.low ==
        Approx(1 - (100.1 / kNa - 3 * 0.4 / kCitric) / (999 * 0.248 / kK)).epsilon(1e-6));
}

TEST_CASE("what is left when the only fat is forgotten is nothing", "[pot]") {
  const auto lines = if_forgotten({{coconut(1000)}, {}, {soda(100)}}, fine_scales());
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].line == "coconut");
  CHECK(lines[0].nothing_left);
  CHECK(lines[0].lye_heavy);
  CHECK(lines[0].superfat == 0);  // of nothing
  CHECK(lines[0].worst == -1);
}

TEST_CASE("no alkali over at the worst, though none to spare, is not lye-heavy", "[pot]") {
  // 1000 g that need at least 190 g of potassium hydroxide, and 190 g of it, all without an error.
  auto exact = fat("exact", 1000, 190, 200, 210);
  exact.error = 0;
  auto extra = fat("extra", 100, 190, 200, 210);
  PotAlkali potash{Alkali::potassium_hydroxide, 190, Strength{1, 1.0, 1.0}, 0};
  auto lines = if_forgotten({{exact, extra}, {}, {potash}}, fine_scales());
  CHECK(lines[1].worst == 0);
  CHECK(lines[1].superfat == Approx(0.05).epsilon(1e-12));
  CHECK_FALSE(lines[1].lye_heavy);
  potash.grams = 190.001;
  lines = if_forgotten({{exact, extra}, {}, {potash}}, fine_scales());
  CHECK(lines[1].worst < 0);
  CHECK(lines[1].superfat > 0);  // nominally fat is left; what may happen decides
  CHECK(lines[1].lye_heavy);
}

TEST_CASE("a crumb of milk brings its fat, none brings none", "[pot]") {
  const auto pot = [](double grams) {
    return pot_of(InPot{{olive(100)}, {}, {whole_milk(grams)}}, fine_scales());
  };
  CHECK(pot(0).fats.size() == 1);
  REQUIRE(pot(0.5).fats.size() == 2);
  CHECK(pot(0.5).fats[1].grams == Approx(0.5 * 0.035).epsilon(1e-12));
  // The lye scale's error outweighs a fifth of itself here: 0.1 g of milk, 3.5 % of it fat.
  CHECK(*pot(0.2).fats[1].error == Approx(0.1 * 0.035).epsilon(1e-12));
}

TEST_CASE("every line is judged as the scale shows it, not as it was asked", "[pot]") {
  RecipeRequest request;
  request.scales.oils.step = 10;
  request.scales.lye.step = 0.5;
  request.oils = {olive(601), coconut(302), castor(103)};
  request.other_fats = {palm(104), olive(53)};
  request.acids = {{"citric acid", AcidForm::citric_anhydrous, 5.1},
                   {"vinegar", AcidForm::acetic, 20.2, 0.05}};
  Addition tea{"tea", 50.2, Into::lye};
  tea.water = 1;
  request.liquids = {tea, whole_milk(30.2)};
  request.additives = {sodium_lactate_powder(20.2), Addition{"clay", 10.1}};
  const auto recipe = weigh(request);
  const auto lines = lines_of(request, recipe);
  const auto grams = [](const auto& list) {
    std::vector<double> out;
    for (const auto& line : list) out.push_back(line.grams);
    return out;
  };
  CHECK(grams(lines.fats) == std::vector<double>{600, 300, 100, 100, 50});
  CHECK(grams(lines.acids) == std::vector<double>{5, 20});
  CHECK(grams(lines.additions) == std::vector<double>{50, 30, 20, 10});
  CHECK(lines.fats[3].name == "palm");
  CHECK(lines.additions[2].name == "sodium lactate powder");
}
