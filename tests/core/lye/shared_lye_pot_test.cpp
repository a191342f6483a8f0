// The pot of a lye that serves several parts: what is weighed into it, what a portion holds, and
// when the scale or the water setting will not do.
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/lye/batch.hpp"
#include "core/units/error.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

using Kind = WaterRule::Kind;

constexpr double kNa = 39.997, kK = 56.106;

/// A part that needs these grams of pure sodium hydroxide at superfat 12 %.
std::vector<LyeNeed> needing(double soda) {
  const double fat_grams = soda / 0.88 / kNa * kK / 0.256;
  return {{"soap", {fat("fat", fat_grams, 256, 256, 256)}, {}, 0.12, 0}};
}

Scales lye_scale(double step, double error) { return {{}, {step, error}}; }

std::string refusal(const std::vector<LyeNeed>& parts, const LyeSettings& settings,
                    const Scales& scales) {
  try {
    share_lye(parts, settings, scales, 1000);
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "taken";
}

LyeSettings mixed() {
  LyeSettings settings;
  settings.alkali = LyeSettings::Choice::mixed;
  settings.koh_share = 0.5;
  settings.koh_strength = Strength{0.90, 0.89, 0.91};
  return settings;
}

}  // namespace

TEST_CASE("alkali that is on the scale's steps is not raised by its last binary digits",
          "[batch]") {
  for (int tenths = 900; tenths <= 1200; ++tenths) {
    INFO(tenths);
    const auto lye = share_lye(needing(tenths * 0.1), {}, fine_scales(), 1000);
    CHECK(lye.alkali[0].grams == Approx(tenths * 0.1).epsilon(1e-9));
    const auto above = share_lye(needing(tenths * 0.1 + 1e-6), {}, fine_scales(), 1000);
    CHECK(above.alkali[0].grams == Approx(tenths * 0.1 + 0.1).epsilon(1e-9));
  }
}

TEST_CASE("a scale off by more than a hundredth of the alkali is refused", "[batch]") {
  const std::string remedy =
      " of the alkali; more than 1 % is not safe. Weigh the alkali on a finer scale, or make a "
      "larger batch.";
  CHECK(refusal(needing(99.5), {}, lye_scale(0.1, 1)) ==
        "The lye scale may be off by 1 g, which is 1.0 %" + remedy);
  CHECK(refusal(needing(50), {}, lye_scale(0.1, 1)) ==
        "The lye scale may be off by 1 g, which is 2.0 %" + remedy);
  CHECK(refusal(needing(100.5), {}, lye_scale(0.1, 1)) == "taken");
  // A hundredth itself will do.
  const double exact = share_lye(needing(100), {}, fine_scales(), 1000).alkali[0].exact_grams;
  double error = 0.01 * exact;
  while (error / exact > 0.01) error = std::nextafter(error, 0.0);
  while (error / exact < 0.01) error = std::nextafter(error, 2.0);
  REQUIRE(error / exact == 0.01);
  CHECK(refusal(needing(100), {}, lye_scale(0.1, error)) == "taken");
}

TEST_CASE("the errors of both alkalis add up", "[batch]") {
  // 50 g of soda, and 50 / 39.997 x 56.106 / 0.90 = 77.9 g of potash: 0.5 g is 1.64 % of them.
  CHECK(refusal(needing(100), mixed(), lye_scale(0.1, 0.5)) ==
        "The lye scale may be off by 0.5 g, which is 1.6 % of the alkali; more than 1 % is not "
        "safe. Weigh the alkali on a finer scale, or make a larger batch.");
  CHECK(refusal(needing(100), mixed(), lye_scale(0.1, 0.3)) == "taken");
}

TEST_CASE("a portion of a mix holds both alkalis in the pot's proportion", "[batch]") {
  std::vector<LyeNeed> parts = needing(100);
  parts.push_back(needing(60)[0]);
  const auto lye = share_lye(parts, mixed(), fine_scales(), 1000);
  REQUIRE(lye.alkali.size() == 2);
  CHECK(lye.alkali[0].exact_grams == Approx(80).epsilon(1e-9));
  CHECK(lye.alkali[1].exact_grams == Approx(80 / kNa * kK / 0.90).epsilon(1e-9));
  for (const auto& portion : lye.portions) {
    REQUIRE(portion.alkali.size() == 2);
    const double share = portion.solution_grams / lye.making_weight;
    CHECK(portion.alkali[0].grams == Approx(share * lye.alkali[0].grams).epsilon(1e-12));
    CHECK(portion.alkali[1].grams == Approx(share * lye.alkali[1].grams).epsilon(1e-12));
    CHECK(portion.check.superfat == Approx(0.12).margin(5e-4));
  }
  // Ten parts in sixteen, and what rounding left.
  CHECK(lye.portions[0].solution_grams == Approx(lye.making_weight * 10 / 16).margin(0.3));
  CHECK(lye.left_grams >= 0);
  CHECK(lye.left_grams < 0.6);
}

TEST_CASE("water settings that are none are refused, whichever way they are given", "[batch]") {
  for (const Kind kind : {Kind::concentration, Kind::ratio, Kind::of_oils}) {
    for (const double none : {0.0, -1.0, static_cast<double>(NAN), static_cast<double>(INFINITY)}) {
      INFO(none);
      LyeSettings settings;
      settings.water = {kind, none};
      CHECK(refusal(needing(100), settings, fine_scales()) ==
            "The water setting is not usable. Give a lye concentration such as 33 %.");
    }
  }
}

TEST_CASE("a lye without water is refused, one with a little is weighed", "[batch]") {
  LyeSettings settings;
  settings.water = {Kind::concentration, 1};
  CHECK(refusal(needing(100), settings, fine_scales()) ==
        "The lye pot would hold no water. Plan a weaker lye, such as 33 %.");
  // A trial of 5 g of fat on a milligram scale: 0.8 g of soda in as much water.
  settings.water = {Kind::ratio, 1};
  const std::vector<LyeNeed> trial = {{"trial", {fat("fat", 5, 256, 256, 256)}, {}, 0.12, 0}};
  const auto lye = share_lye(trial, settings, {{0.001, {}}, {0.001, {}}}, 5);
  CHECK(lye.alkali[0].grams == Approx(5 * 0.256 * 0.88 / kK * kNa).margin(0.001));
  CHECK(lye.water_grams == Approx(lye.alkali[0].grams));
}

TEST_CASE("a part without fat, or no part at all, is refused", "[batch]") {
  auto parts = needing(100);
  parts.push_back({"topping", {olive(0)}, {}, 0.05, 0});
  CHECK(refusal(parts, {}, fine_scales()) ==
        "There is no fat in the topping. Give it an oil with a weight.");
  parts[1].fats.clear();
  CHECK(refusal(parts, {}, fine_scales()) ==
        "There is no fat in the topping. Give it an oil with a weight.");
  CHECK(refusal({}, {}, fine_scales()) == "No part shares the lye. Give at least one part.");
}

TEST_CASE("potash without its strength is refused in a shared pot too", "[batch]") {
  LyeSettings settings = mixed();
  settings.koh_strength.reset();
  CHECK(refusal(needing(100), settings, fine_scales()) ==
        "The strength of the potassium hydroxide is not stated. Read the assay off the supplier's "
        "certificate and state it, such as 90 %.");
}

TEST_CASE("what rounding a portion down takes off, and what may boil off", "[batch]") {
  LyePortion portion;
  portion.exact_grams = 100;
  portion.solution_grams = 99;
  CHECK(portion.moved_by_rounding() == Approx(0.01).epsilon(1e-12));
  CHECK(kBoiledOff == 0.03);  // judgement
}
