#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "core/lye/batch_pot.hpp"
#include "core/lye/recipe.hpp"
#include "core/units/error.hpp"
#include "fats.hpp"

// What the worst case doubts of waxes, of potash and of a scale, and what it says of it.

using namespace barwright::core;
using namespace barwright::tests;
using Catch::Contains;

namespace {

// Beeswax: saponification value 87 to 104 (Ph. Eur., recalled), acid value 17 to 24 (USP 35, read).
PotFat beeswax(double grams) {
  PotFat out = fat("beeswax", grams, 87, 95, 104, 0.52);
  out.form = FatForm::wax;
  out.acid_value = 17;
  return out;
}

std::string refusal(const RecipeRequest& request) {
  try {
    weigh(request);
  } catch (const Refusal& refusal) {
    return refusal.reason() + " | " + refusal.remedy();
  }
  return "not refused";
}

const Note* note_with(const Recipe& recipe, const std::string& words) {
  const auto found = std::find_if(recipe.notes.begin(), recipe.notes.end(), [&](const Note& note) {
    return note.text.find(words) != std::string::npos;
  });
  return found == recipe.notes.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("of a wax only the free acid is sure to react", "[doubt]") {
  CHECK(judged_span(beeswax(50)).low == 17);
  CHECK(judged_span(beeswax(50)).typical == 95);
  CHECK(judged_span(beeswax(50)).high == 104);
  auto certified = beeswax(50);
  certified.saponification_value = {95, 95, 95};
  certified.certified = true;
  CHECK(judged_span(certified).low == 17);  // a certificate does not make its esters react
  // What is as rich in unsaponifiables, whatever its record calls it; shea at its 19 % is a fat.
  CHECK(judged_span(fat("wool fat", 50, 90, 96, 102, 0.48)).low == 0);
  CHECK(judged_span(fat("shea butter", 50, 160, 179, 195, 0.19)).low == 160);

  // By hand: 50 g of wax in 1050 g. Need 198.9 + 4.75 g KOH; sure to react 98 % of 190 g on the
  // olive (its lot's certificate apart) and 0.85 g on the wax.
  RecipeRequest request = plain_request();
  request.oils = {fat("olive", 1000, 190, 190, 190), beeswax(50)};
  request.scales = {{0.001, {}}, {0.001, {}}};
  const Recipe recipe = weigh(request);
  const double need = 190 + 4.75, sure = 190 * 0.98 + 0.85;
  const double alkali = recipe.alkali[0].grams / kNaohMolarMass * kKohMolarMass;
  CHECK(recipe.superfat == Approx(1 - alkali / need).margin(1e-9));
  CHECK(recipe.band.low == Approx(1 - alkali / sure).margin(2e-5));
  // The pot as it stands is judged alike.
  Pot pot{
      request.oils,
      {},
      {{Alkali::sodium_hydroxide, recipe.alkali[0].grams, {}, request.scales.lye.error_grams()}}};
  CHECK(check_pot(pot, request.scales).band.low == Approx(recipe.band.low).margin(1e-12));
}

TEST_CASE("more wax than a small share is refused as soap", "[doubt]") {
  auto request = plain_request();
  request.lye.superfat = 0.20;
  request.oils = {coconut(900), beeswax(100)};
  CHECK_NOTHROW(weigh(request));
  request.oils = {coconut(890), beeswax(110)};
  CHECK_THAT(refusal(request), Contains("beeswax") && Contains("11.0 % of the fat") &&
                                   Contains("at most 10 %") && Contains("our judgement"));
  request.oils = {beeswax(1000)};
  CHECK_THAT(refusal(request), Contains("100.0 % of the fat"));
  // Two of them count together, in whatever list they stand.
  request.oils = {coconut(900), beeswax(60)};
  request.other_fats = {fat("wool fat", 60, 90, 96, 102, 0.48)};
  CHECK_THAT(refusal(request), Contains("beeswax, wool fat"));
}

TEST_CASE("a label of potash may be a floor", "[doubt]") {
  const auto kK = Alkali::potassium_hydroxide;
  // USP and JECFA: not less than 85 % (read); lots are sold up to 92 % (recalled).
  for (const double stated : {0.85, 0.87, 0.88, 0.895}) {
    CHECK(strongest(kK, {stated, {}, {}}) == 0.92);
    CHECK(strongest(kK, {stated, stated - 0.005, {}}) == 0.92);
  }
  CHECK(strongest(kK, {0.85, 0.845, 0.86}) == 0.86);
  CHECK(strongest(kK, {0.90, {}, {}}) == Approx(0.91));

  auto request = plain_request();
  request.lye.alkali = LyeSettings::Choice::potassium_hydroxide;
  request.lye.koh_strength = Strength{0.85, {}, {}};
  CHECK_THAT(refusal(request), Contains("may be a lot of 92 %") && Contains("State the assay"));
  request.lye.koh_strength = Strength{0.85, {}, 0.86};
  CHECK_NOTHROW(weigh(request));
  CHECK(note_with(weigh(request), "is a floor") == nullptr);
  request.lye.koh_strength = Strength{0.88, {}, {}};
  request.lye.superfat = 0.10;
  const Recipe doubted = weigh(request);
  REQUIRE(note_with(doubted, "is a floor, not a strength") != nullptr);
  CHECK_THAT(note_with(doubted, "is a floor")->text,
             Contains("a 90 % lot is 2.3 % too much") && Contains("reckons with 92 %"));
}

TEST_CASE("what is left of a forgotten line is judged at its worst", "[doubt]") {
  // Castor at 6.5 % of a bar: 0.5 % of superfat is left without it, free lye at worst.
  RecipeRequest request = plain_request();
  request.oils = {olive(645), coconut(300), castor(50)};
  const Recipe recipe = weigh(request);
  const Forgotten& castor_left = recipe.forgotten[2];
  CHECK(castor_left.superfat > 0);
  CHECK(castor_left.worst < 0);
  CHECK(castor_left.lye_heavy);
  Pot pot{
      {request.oils[0], request.oils[1]},
      {},
      {{Alkali::sodium_hydroxide, recipe.alkali[0].grams, {}, request.scales.lye.error_grams()}}};
  CHECK(castor_left.worst == Approx(check_pot(pot, request.scales).band.low).margin(1e-12));
  // An acid for which the lye holds more.
  request.acids = {{"citric acid", AcidForm::citric_anhydrous, 5}};
  const Recipe sour = weigh(request);
  CHECK(sour.forgotten.back().worst < sour.band.low);
  CHECK(sour.forgotten.back().lye_heavy == (sour.forgotten.back().worst < 0));
}

TEST_CASE("alkali is rounded down on scales of every step", "[doubt]") {
  CHECK(rounded_down(4.4999, 1.5) == 3);
  CHECK(rounded_down(4.5, 1.5) == 4.5);
  CHECK(rounded_down(0.9, 0.3) == 0.9);  // 0.9 / 0.3 is 3.0000000000000004 or a hair less
  CHECK(rounded_down(0.6, 0.2) == 0.6);
  CHECK(rounded_down(1.7499999, 0.25) == 1.5);
  Dice dice(11);
  const double steps[] = {1.5, 0.25, 0.3, 0.7, 2.5, 0.03, 7, 0.4536, 28.35};
  for (int i = 0; i < 9000; ++i) {
    const double step = steps[dice.whole(0, 8)];
    const double grams = dice.coin() ? dice.between(step, 3000) : step * dice.whole(1, 100000);
    const double down = rounded_down(grams, step);
    const double count = down / step;
    REQUIRE(down <= grams + 1e-8 * step);
    REQUIRE(down > grams - step);
    REQUIRE(std::abs(count - std::round(count)) < 1e-6);
  }
}

TEST_CASE("a superfat that rounding moves is said with the scale that cures it", "[doubt]") {
  auto request = plain_request();
  request.oils = {fat("oil", 1300, 190, 190, 190)};
  request.scales = {{0.1, {}}, {1.5, {}}};
  const Recipe coarse = weigh(request);
  const double exact = 1300 * 0.190 * kNaohMolarMass / kKohMolarMass * (1 - 0.05);
  REQUIRE(coarse.alkali[0].exact_grams == Approx(exact).epsilon(1e-9));
  CHECK(coarse.alkali[0].grams == Approx(166.5));  // 167.28 g, down to 111 steps of 1.5 g
  const Note* said = note_with(coarse, "Rounding the alkali down");
  REQUIRE(said != nullptr);
  CHECK_THAT(said->text, Contains("steps of 1.5 g") && Contains("from 5.0 % to 5.4 %") &&
                             Contains("A scale of 0.5 g"));
  request.scales.lye = {0.5, {}};
  CHECK(note_with(weigh(request), "Rounding the alkali down") == nullptr);
}

TEST_CASE("a raised superfat is said first, with the way to insist", "[doubt]") {
  auto request = plain_request();
  request.oils = {fat("loose", 1000, 180, 190, 200)};
  request.lye.never_below = 0.02;
  request.lye.superfat = 0.06;
  const Recipe raised = weigh(request);
  REQUIRE(raised.superfat > 0.07);
  CHECK_THAT(raised.notes.front().text,
             Contains("Superfat raised from 6.0 % to 7.5 %") &&
                 Contains("write 'superfat: {aim: 6.0 %, never-below: 0.6 %}'"));
  // What it says to write is taken, and keeps the aim.
  request.lye.never_below = 0.005;
  CHECK(weigh(request).superfat == Approx(0.06).margin(0.001));
  // 'raise: no': as asked or not at all.
  request.lye.may_raise = false;
  CHECK(weigh(request).superfat == Approx(0.06).margin(0.001));
  request.lye.never_below = 0.02;
  CHECK_THAT(refusal(request), Contains("raise: no") && Contains("never-below: 0.6 %") &&
                                   Contains("it would rise to 7.5 %"));
  // Below no lye left over nobody can insist.
  request.lye.superfat = 0.05;
  request.lye.never_below = 0;
  CHECK_THAT(refusal(request), Contains("cannot be insisted on") && Contains("free lye"));
}

TEST_CASE("only figures that were not read or computed are called recalled", "[doubt]") {
  auto request = plain_request();
  request.oils[0].mark = Mark::computed;
  CHECK(note_with(weigh(request), "not read from a published table") == nullptr);
  request.oils[1].mark = Mark::judgement;
  request.oils[2].mark = Mark::recalled;
  const Recipe recipe = weigh(request);
  REQUIRE(note_with(recipe, "not read from") != nullptr);
  CHECK_THAT(note_with(recipe, "not read from")->text, Contains("(coconut, castor)"));
}
