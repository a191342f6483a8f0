#include <catch2/catch.hpp>
#include <cmath>

#include "core/lye/batch.hpp"
#include "core/lye/lye.hpp"
#include "core/units/error.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

// Small pots reckoned on paper. Molar masses written out: the engine's own constants are on trial.

namespace {

constexpr double kNa = 39.997, kK = 56.106, kAcetic = 60.052, kCitric = 192.123;

/// A fat whose saponification value is known exactly and whose weight is.
PotFat exact_fat(double grams, double value) {
  PotFat out = fat("fat", grams, value, value, value);
  out.error = 0;
  return out;
}

PotAlkali soda(double grams) {
  return {Alkali::sodium_hydroxide, grams, Strength{1, 1.0, 1.0}, 0.1};
}

}  // namespace

TEST_CASE("a pot with vinegar, every error against you and every error for you", "[pot]") {
  // 128.6 g of soda, good to 0.1 g; 400 g of vinegar at 5 %, perhaps 0.1 g short and 5 % weaker;
  // the fat perhaps 2 % off its figure.
  const Acid vinegar{"vinegar", AcidForm::acetic, 400, 0.05};
  const auto check = check_pot({{exact_fat(1000, 190)}, {vinegar}, {soda(128.6)}}, fine_scales());
  const double need = 190 / kK, acid = 20 / kAcetic;
  CHECK(check.need_moles == Approx(need).epsilon(1e-5));
  CHECK(check.acid_moles == Approx(acid).epsilon(1e-5));
  CHECK(check.dosed_moles == Approx(128.6 / kNa).epsilon(1e-5));
  CHECK(check.superfat == Approx(1 - (128.6 / kNa - acid) / need).epsilon(1e-5));
  CHECK(check.most_moles == Approx(128.7 / kNa - 0.95 * acid * 399.9 / 400).epsilon(1e-5));
  CHECK(check.band.low ==
        Approx(1 - (128.7 / kNa - 0.95 * acid * 399.9 / 400) / (0.98 * need)).epsilon(1e-4));
  CHECK(check.band.high ==
        Approx(1 - (128.5 / kNa - acid * 400.1 / 400) / (1.02 * need)).epsilon(1e-4));
}

TEST_CASE("an acid that weighs nothing changes nothing", "[pot]") {
  const Pot plain{{exact_fat(1000, 190)}, {}, {soda(128.6)}};
  Pot with = plain;
  with.acids = {{"vinegar", AcidForm::acetic, 0, 0.05}};
  CHECK(check_pot(with, fine_scales()).superfat == check_pot(plain, fine_scales()).superfat);
  CHECK(check_pot(with, fine_scales()).band.low == check_pot(plain, fine_scales()).band.low);
  CHECK(check_pot(with, fine_scales()).band.high == check_pot(plain, fine_scales()).band.high);
}

TEST_CASE("fat that the scale may have made up is no fat at the worst", "[pot]") {
  // Half a gram on a scale good to a gram: perhaps none, and then all of the lye is free.
  const auto crumb = check_pot({{olive(0.5)}, {}, {soda(0.05)}}, fine_scales());
  CHECK(crumb.band.low == -1);
  CHECK_FALSE(crumb.nothing_left);
  CHECK(crumb.superfat == Approx(1 - 0.05 / kNa / (0.5 * 0.190 / kK)).epsilon(1e-4));
  // At best it is 1.5 g at 196 mg/g, and no alkali: the scale may have made that up as well.
  CHECK(crumb.band.high == 1);
  // The error of a line that weighs nothing is none, however coarse the scale.
  const auto beside = check_pot({{exact_fat(1000, 190), olive(0)}, {}, {soda(128.6)}}, {});
  const auto alone = check_pot({{exact_fat(1000, 190)}, {}, {soda(128.6)}}, {});
  CHECK(beside.band.low == alone.band.low);
  CHECK(beside.band.high == alone.band.high);
}

TEST_CASE("both alkalis of a mix count by moles, at their strengths", "[pot]") {
  const PotAlkali potash{Alkali::potassium_hydroxide, 20, Strength{0.90, 0.88, 0.92}, 0.1};
  const auto check = check_pot({{exact_fat(1000, 190)}, {}, {soda(110), potash}}, fine_scales());
  const double need = 190 / kK;
  CHECK(check.superfat == Approx(1 - (110 / kNa + 18 / kK) / need).epsilon(1e-5));
  CHECK(check.band.low ==
        Approx(1 - (110.1 / kNa + 20.1 * 0.92 / kK) / (0.98 * need)).epsilon(1e-4));
  CHECK(check.band.high ==
        Approx(1 - (109.9 / kNa + 19.9 * 0.88 / kK) / (1.02 * need)).epsilon(1e-4));
}

TEST_CASE("weights that are none are refused in the pot", "[pot]") {
  for (const double grams : {-1.0, static_cast<double>(NAN), static_cast<double>(INFINITY)}) {
    INFO(grams);
    CHECK_THROWS_AS(check_pot({{olive(grams)}, {}, {soda(10)}}, fine_scales()), Refusal);
    CHECK_THROWS_AS(check_pot({{olive(100)}, {}, {soda(grams)}}, fine_scales()), Refusal);
    const Acid acid{"vinegar", AcidForm::acetic, grams, 0.05};
    CHECK_THROWS_AS(check_pot({{olive(100)}, {acid}, {soda(10)}}, fine_scales()), Refusal);
  }
}

TEST_CASE("no lot is known better than two points of a hundred, half a point certified", "[lye]") {
  auto oil = fat("oil", 1, 190, 190, 190);
  CHECK(judged_span(oil).low == Approx(186.2).epsilon(1e-12));
  CHECK(judged_span(oil).high == Approx(193.8).epsilon(1e-12));
  oil.certified = true;
  CHECK(judged_span(oil).low == Approx(189.05).epsilon(1e-12));
  CHECK(judged_span(oil).high == Approx(190.95).epsilon(1e-12));
  oil.saponification_value = {180, 190, 200};  // a wider range is kept
  CHECK(judged_span(oil).low == 180);
  CHECK(judged_span(oil).high == 200);
}

TEST_CASE("strengths at their ends", "[alkali]") {
  const auto na = Alkali::sodium_hydroxide, k = Alkali::potassium_hydroxide;
  CHECK(strongest(k, {0.995, {}, {}}) == 1);  // nothing is stronger than pure
  CHECK(strongest(k, {0.90, {}, 0.905}) == 0.905);
  CHECK(strongest(k, {0.85, {}, {}}) == 0.92);
  CHECK(weakest(na, {}) == 0.97);
  CHECK(weakest(na, {0.98, {}, {}}) == Approx(0.97));
  CHECK(weakest(na, {0.95, {}, {}}) == Approx(0.94));
  CHECK(weakest(k, {1, {}, {}}) == Approx(0.99));
  CHECK(weakest(k, {0.90, {}, {}}) == Approx(0.89));
  CHECK(may_be_a_floor(k, {0.85, {}, {}}));
  CHECK_FALSE(may_be_a_floor(k, {0.85, {}, 0.86}));
  CHECK_FALSE(may_be_a_floor(k, {0.90, {}, {}}));
  CHECK_FALSE(may_be_a_floor(na, {0.85, {}, {}}));
  CHECK_THROWS_AS(koh_shares(-0.1, MixBasis::moles, {.naoh = 1, .koh = 0.9}), Refusal);
}

TEST_CASE("acids at their strengths", "[acid]") {
  // Half-strength crystals bind half, and are in doubt like any solution.
  const Acid half{"citric acid", AcidForm::citric_anhydrous, 100, 0.5};
  CHECK(alkali_moles(half) == Approx(3 * 50 / kCitric).epsilon(1e-5));
  CHECK(least_alkali_moles(half, 0) == Approx(0.95 * 3 * 50 / kCitric).epsilon(1e-5));
  const Acid crystals{"citric acid", AcidForm::citric_anhydrous, 100};
  CHECK(least_alkali_moles(crystals, 1) == Approx(3 * 99 / kCitric).epsilon(1e-5));
  CHECK(least_alkali_moles(crystals, 200) == 0);
  const Acid lactic{"lactic acid", AcidForm::lactic, 100, 1};  // 90.078 g/mol
  CHECK(least_alkali_moles(lactic, 0) == Approx(0.95 * 100 / 90.078).epsilon(1e-5));
  // 50 g of monohydrate in 50 g of water; of it 18.015 parts of 210.138 are water.
  const Acid dissolved{"citric acid", AcidForm::citric_monohydrate, 100, 0.5};
  CHECK(water_grams(dissolved) == Approx(50 + 50 * 18.015 / 210.138).epsilon(1e-5));
  for (const double strength : {-0.1, 0.0, 1.5, static_cast<double>(NAN)}) {
    INFO(strength);
    CHECK_THROWS_AS(alkali_moles({"lactic acid", AcidForm::lactic, 100, strength}), Refusal);
  }
}

TEST_CASE("an acid by its groups and molar mass needs both", "[acid]") {
  const auto moles = [](double groups, double mass) {
    return alkali_moles({"tartaric acid", AcidForm::other, 15.009, 1, groups, mass});
  };
  CHECK(moles(2, 150.09) == Approx(0.2).epsilon(1e-9));
  CHECK(moles(0.5, 150.09) == Approx(0.05).epsilon(1e-9));
  CHECK(moles(1, 0.5) == Approx(30.018).epsilon(1e-9));
  for (const double none : {0.0, -1.0, static_cast<double>(NAN), static_cast<double>(INFINITY)}) {
    INFO(none);
    CHECK_THROWS_AS(moles(none, 150.09), Refusal);
    CHECK_THROWS_AS(moles(2, none), Refusal);
  }
}

TEST_CASE("unasked, a lye is soda at 33 % with 5 % superfat that never falls below 0", "[lye]") {
  const LyeSettings settings;
  CHECK(settings.superfat == 0.05);
  CHECK(settings.never_below == 0);
  CHECK(settings.water.value == 0.33);
  CHECK(settings.koh_share == 0);
  CHECK(settings.may_raise);
  const LyeNeed need;
  CHECK(need.superfat == 0.05);
  CHECK(need.never_below == 0);
  CHECK(need.may_raise);
}

TEST_CASE("a shared pot of both alkalis, with an acid in one part", "[batch]") {
  LyeSettings settings;
  settings.alkali = LyeSettings::Choice::mixed;
  settings.koh_share = 0.10;
  settings.koh_strength = Strength{0.90, 0.89, 0.91};
  settings.water = {WaterRule::Kind::ratio, 2};
  const Acid acid{"citric acid", AcidForm::citric_anhydrous, 20};
  const std::vector<LyeNeed> parts = {{"body", {coconut(1000)}, {acid}, 0.08, 0},
                                      {"topping", {coconut(500)}, {}, 0.08, 0}};
  const auto lye = share_lye(parts, settings, fine_scales(), 1500);
  // 1500 g at 256 mg/g less 8 %, and three groups of citric acid to be neutralised.
  const double acid_moles = 3 * 20 / kCitric;
  const double moles = 0.92 * 1500 * 0.256 / kK + acid_moles;
  REQUIRE(lye.alkali.size() == 2);
  CHECK(lye.alkali[0].exact_grams == Approx(0.9 * moles * kNa).epsilon(1e-5));
  CHECK(lye.alkali[1].exact_grams == Approx(0.1 * moles * kK / 0.90).epsilon(1e-5));
  for (const auto& line : lye.alkali) {  // up to the step: portions are weighed out of it
    CHECK(line.grams >= line.exact_grams - 1e-9);
    CHECK(line.grams < line.exact_grams + 0.1);
  }
  const double weighed = lye.alkali[0].grams + lye.alkali[1].grams;
  CHECK(lye.water_grams == Approx(2 * weighed).margin(0.051));
  CHECK(lye.concentration ==
        Approx((lye.alkali[0].grams + 0.90 * lye.alkali[1].grams) / (weighed + lye.water_grams)));
  // Every portion is at its aim, the acid's alkali apart.
  for (const auto& portion : lye.portions) {
    CHECK(portion.raised_superfat == 0.08);
    CHECK(portion.check.superfat == Approx(0.08).margin(0.001));
    CHECK(portion.check.superfat >= 0.08 - 1e-9);
    double alkali = 0;
    for (const auto& line : portion.alkali) alkali += line.grams;
    CHECK(portion.water_grams + alkali == Approx(portion.solution_grams));
  }
  settings.water = {WaterRule::Kind::of_oils, 0.30};
  CHECK(share_lye(parts, settings, fine_scales(), 1500).water_grams == Approx(450));
  for (const double none : {0.0, -1.0, static_cast<double>(NAN), static_cast<double>(INFINITY)}) {
    settings.water.value = none;
    CHECK_THROWS_AS(share_lye(parts, settings, fine_scales(), 1500), Refusal);
  }
  settings.water = {};
  settings.koh_strength.reset();
  CHECK_THROWS_AS(share_lye(parts, settings, fine_scales(), 1500), Refusal);
}

TEST_CASE("a shared pot of potassium hydroxide alone", "[batch]") {
  LyeSettings settings;
  settings.alkali = LyeSettings::Choice::potassium_hydroxide;
  settings.koh_strength = Strength{0.90, 0.89, 0.91};
  const std::vector<LyeNeed> parts = {{"soft", {coconut(1000)}, {}, 0.08, 0}};
  const auto lye = share_lye(parts, settings, fine_scales(), 1000);
  REQUIRE(lye.alkali.size() == 1);
  CHECK(lye.alkali[0].alkali == Alkali::potassium_hydroxide);
  CHECK(lye.alkali[0].exact_grams == Approx(0.92 * 256 / 0.90).epsilon(1e-5));
}
