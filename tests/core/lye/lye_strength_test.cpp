#include "core/lye/lye_strength.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/chemistry/heat.hpp"
#include "core/chemistry/solubility.hpp"
#include "core/lye/lye.hpp"
#include "core/lye/recipe.hpp"
#include "fats.hpp"
#include "said.hpp"

// How hot lye makes itself, and what is said of its strength and warmth, on both sides of each
// edge.

using namespace barwright::core;
using namespace barwright::tests;
using Catch::Contains;

namespace {

constexpr auto kNa = Alkali::sodium_hydroxide;
constexpr auto kK = Alkali::potassium_hydroxide;
const KohShares kSoda{}, kPotash{1, 1, 1};

/// Returns every note as "word: text", or the refusal.
std::string said(double concentration, double celsius, const KohShares& koh = kSoda) {
  LyeSettings settings;
  settings.lye_celsius = celsius;
  std::string out;
  const std::string refusal = refusal_of([&] {
    for (const auto& note : check_strength(settings, koh, concentration)) {
      out += std::string(word(note.severity)) + ": " + note.text + "\n";
    }
  });
  return refusal == "not refused" ? out : refusal;
}

}  // namespace

TEST_CASE("lye heats itself by the heat of solution at its own dilution", "[lye strength]") {
  // kJ/mol at so many moles of water to one of sodium hydroxide (recalled); halfway between: the
  // mean. 3.5 J/gK. One mole of either alkali in w moles of water, 18.015 g each.
  struct Row {
    double water, kilojoules;
  };
  for (const Row row :
       {Row{2, 28.9}, Row{3, 28.9}, Row{3.5, 31.65}, Row{4, 34.4}, Row{4.5, 36.1}, Row{5, 37.8},
        Row{7.5, 40.15}, Row{10, 42.5}, Row{105, 43.5}, Row{200, 44.5}, Row{400, 44.5}}) {
    INFO(row.water);
    const double soda = 39.997 + 18.015 * row.water, potash = 56.106 + 18.015 * row.water;
    CHECK(self_heating_celsius(kNa, 39.997 / soda) ==
          Approx(1000 * row.kilojoules / 3.5 / soda).epsilon(1e-9));
    // Potash gives 57.6 kJ/mol where soda gives 44.5 (infinite dilution; read, a secondary source).
    CHECK(self_heating_celsius(kK, 56.106 / potash) ==
          Approx(1000 * row.kilojoules * 57.6 / 44.5 / 3.5 / potash).epsilon(1e-9));
  }
  CHECK(self_heating_celsius(kNa, 0) == 0);
}

TEST_CASE("usual lye calls for no word", "[lye strength]") {
  CHECK(said(0.33, 35).empty());
  CHECK(said(0.33, 35, kPotash).empty());
  LyeSettings unplanned;
  CHECK(check_strength(unplanned, kSoda, 0.33).empty());
}

TEST_CASE("a temperature to work at lies between freezing and boiling", "[lye strength]") {
  const auto refused = [](const std::string& celsius) {
    return "A lye temperature of " + celsius +
           " C is not one to work at. | Plan the lye between 20 and 45 C.";
  };
  CHECK(said(0.26, 0).empty());
  CHECK(said(0.26, 0.5).empty());
  CHECK(said(0.26, -0.6) == refused("-1"));
  CHECK_THAT(said(0.33, 100), Contains("Lye at 100 C can make"));
  CHECK(said(0.33, 100.4) == refused("100"));
  CHECK(said(0.33, NAN) == refused("not a number"));
  CHECK(said(0.33, INFINITY) == refused("not a number"));
}

TEST_CASE("above a half lye is refused, whatever its warmth", "[lye strength]") {
  CHECK_THAT(said(0.5, 45), !Contains("does not dissolve safely"));
  CHECK_THAT(said(0.5 + 1e-9, 45),
             !Contains("does not dissolve safely"));  // of a sum's last digits
  for (const KohShares& koh : {kSoda, kPotash}) {
    CHECK(
        said(0.5012, 45, koh) ==
        "The lye pot would hold 50.1 % alkali; above 50 % it does not dissolve safely. | Give the "
        "alkali at least its own weight of water before late liquids join.");
  }
}

TEST_CASE("lye that would crystallise is refused with what stays clear", "[lye strength]") {
  // Soda: 35 % at 10 C, 38.8 % at 15.6 C (recalled): 35.339 % at 10.5 C, said as 35.3 %.
  const double clear = 0.35 + 0.038 * 0.5 / 5.6;
  CHECK(said(clear + 1e-6, 10.5) ==
        "Lye of 35.3 % crystallises at 10 C, and what lies on the bottom is missing from the oils, "
        "then burns where it lands. | At that temperature keep it to 35.3 % or weaker, or plan it "
        "warmer.");
  CHECK_THAT(said(0.40, 10.5), Contains("keep it to 35.3 % or weaker"));
  CHECK_THAT(said(clear - 1e-6, 10.5), Contains("within 5 C of crystallising"));
  CHECK_THAT(said(0.35, 10), Contains("within 5 C"));  // the curve itself is clear
  // What is advised is taken: at 12.34 C 36.588 % is clear.
  CHECK_THAT(said(0.366, 12.34), Contains("keep it to 36.5 % or weaker"));
  CHECK_THAT(said(0.365, 12.34), !Contains("keep it to"));
  // Unplanned, a cool room of 20 C: 52.2 % clear; at 5 C, on the table, 32 %.
  CHECK_THAT(said(0.33, 5), Contains("Lye of 33.0 % crystallises at 5 C"));
}

TEST_CASE("lye near its crystals is said to be", "[lye strength]") {
  const std::string near =
      "caution: Lye of 36.0 % at 15 C is within 5 C of crystallising: see that it is clear before "
      "it is used, and do not let it stand overnight.\n";
  // 15.2 C: 5 C colder 35.136 % is the most that stays clear (35 % at 10 C, 38.8 % at 15.6 C).
  CHECK(said(0.36, 15.2) == near);
  CHECK(
      said(0.3514, 15.2) ==
      "caution: Lye of 35.1 % at 15 C is within 5 C of crystallising: see that it is clear before "
      "it is used, and do not let it stand overnight.\n");
  CHECK(said(0.3513, 15.2).empty());
  CHECK(said(0.32, 10).empty());  // 32 % is clear at 5 C by the table
}

TEST_CASE("mixed lye crystallises as soda does, potash alone as potash", "[lye strength]") {
  // 40 % at 10 C: soda stays clear to 35 %, potash to 50.8 %.
  CHECK_THAT(said(0.40, 10, {0.999, 0.999, 0.999}), Contains("keep it to 35.0 %"));
  CHECK(said(0.40, 10, kPotash).empty());
  // A share reckoned from weights may miss one by its last digits.
  const double nearly = 1 - 1e-9;
  CHECK(said(0.40, 10, {nearly, nearly, nearly}).empty());
}

TEST_CASE("strong, weak and hot lye is said to be, past the edge only", "[lye strength]") {
  const std::string strong =
      "caution: Lye of 40.2 % is strong: it spits, heats hard and thickens the batter fast. 33 % "
      "is usual.\n";
  CHECK(said(0.40, 35).empty());
  CHECK(said(0.402, 35) == strong);
  CHECK(said(0.25, 35).empty());
  CHECK(said(0.2490, 35) ==
        "caution: Lye of 24.9 % is weak: slow trace, a soft bar and much shrinkage. 33 % is "
        "usual.\n");
  CHECK(said(0.251, 35).empty());
  CHECK(said(0.33, 60).empty());
  CHECK(said(0.33, 60.6) ==
        "caution: Lye at 61 C can make the batter seize or boil over; let it cool below 45 C.\n");
}

TEST_CASE("what makes an alkali impure counts as weight of the lye, not as alkali",
          "[lye strength]") {
  // Potash of 90 %: 210 g hold 189 g of pure alkali. 33 %: 189 / 0.33 = 572.7 g of lye, 362.7 g of
  // them water; the ten parts of a hundred that are water or carbonate are in the 210 g already.
  auto request = plain_request();
  request.lye.alkali = LyeSettings::Choice::potassium_hydroxide;
  request.lye.koh_strength = Strength{0.90, {}, {}};
  const Recipe third = weigh(request);
  const double potash = third.alkali.front().grams;
  REQUIRE(potash > 200);
  const double lye_grams = 0.90 * potash / 0.33;
  CHECK(third.water_grams == Approx(lye_grams - potash).margin(0.051));
  CHECK(third.lye_concentration == Approx(0.33).margin(5e-5));
  CHECK(third.pot_water_grams == third.water_grams);
  CHECK(third.mixed_concentration ==
        Approx(0.90 * potash / (potash + third.water_grams)).epsilon(1e-12));
  CHECK(third.water_to_alkali == Approx(third.water_grams / potash).epsilon(1e-12));
  // As much water as potash: 45 % of lye, not 50 %, and so clear at 0 C (49.2 %, recalled) where
  // pure potash would not be.
  request.lye.water = {WaterRule::Kind::ratio, 1};
  request.lye.lye_celsius = 0;
  const Recipe even = weigh(request);
  CHECK(even.water_grams == Approx(potash).margin(0.051));
  CHECK(even.mixed_concentration == Approx(0.45).margin(2e-4));
  request.lye.koh_strength = Strength{1, {}, {}};
  CHECK_THAT(refusal_of([&] { weigh(request); }), Contains("Lye of 50.0 % crystallises at 0 C"));
  // A little less water and the impure potash crystallises too: 0.90 / 1.82 = 49.45 %.
  request.lye.koh_strength = Strength{0.90, {}, {}};
  request.lye.water = {WaterRule::Kind::ratio, 0.82};
  CHECK_THAT(refusal_of([&] { weigh(request); }), Contains("Lye of 49.5 % crystallises at 0 C"));
  // Soda of 97 %, alike.
  auto soda = plain_request();
  soda.lye.naoh_strength = Strength{0.97, {}, {}};
  soda.lye.water = {WaterRule::Kind::ratio, 1.5};
  const Recipe impure = weigh(soda);
  CHECK(impure.mixed_concentration == Approx(0.97 / 2.5).margin(2e-4));
}
