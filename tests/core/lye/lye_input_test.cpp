#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/lye/lye.hpp"
#include "fats.hpp"
#include "said.hpp"

// What the lye engine takes and what it refuses, on both sides of every edge, and in what words.

using namespace barwright::core;
using namespace barwright::tests;
using Catch::Contains;

namespace {

constexpr double kNan = NAN, kInf = INFINITY;

PotFat steady(double grams) {
  PotFat out = fat("oil", grams, 190, 190, 190);
  out.certified = true;
  return out;
}

PotFat shellac(double grams) {
  PotFat out = fat("shellac", grams, 190, 200, 210);
  out.form = FatForm::wax;
  return out;
}

/// What is said of a kilogram of steady oil beside `other`.
std::string of_fat(const PotFat& other, double grams = 1000) {
  return refusal_of([&] { lye_for({{steady(grams), other}}, {}, {}, fine_scales(), grams); });
}

std::string of_settings(const LyeSettings& settings) {
  return refusal_of([&] { lye_for({{steady(1000)}}, {}, settings, fine_scales(), 1000); });
}

const std::string kTaken = "not refused";

}  // namespace

TEST_CASE("a fat weighs nothing or more", "[lye input]") {
  CHECK(of_fat(olive(0)) == kTaken);
  CHECK(of_fat(olive(0.5)) == kTaken);
  for (const double none : {-0.1, kNan, kInf}) {
    INFO(none);
    CHECK(of_fat(olive(none)) == "The weight of 'olive' is not a weight. | Give it in grams.");
    CHECK(of_fat(shellac(20000 * none)) ==
          "The weight of 'shellac' is not a weight. | Give it in grams.");
  }
}

TEST_CASE("a saponification value is a range in order", "[lye input]") {
  const std::string no_range =
      "The saponification value of 'odd' is not a range with its typical value inside it. | Give "
      "low, typical and high in mg KOH per g, in that order.";
  CHECK(of_fat(fat("odd", 10, 190, 190, 190)) == kTaken);
  CHECK(of_fat(fat("odd", 10, 191, 190, 192)) == no_range);
  CHECK(of_fat(fat("odd", 10, 188, 193, 192)) == no_range);
  for (const double none : {kNan, kInf, -kInf}) {
    INFO(none);
    CHECK(of_fat(fat("odd", 10, none, 190, 192)) == no_range);
    CHECK(of_fat(fat("odd", 10, 188, none, 192)) == no_range);
    CHECK(of_fat(fat("odd", 10, 188, 190, none)) == no_range);
  }
}

TEST_CASE("a saponification value is one of fats", "[lye input]") {
  // C24 acids: 153 mg KOH/g (computed); tributyrin: 557 (computed). 1 % unsaponifiable: 148.5.
  const auto no_fat = [](const std::string& range) {
    return "The saponification value of 'odd', " + range +
           ", cannot be mg KOH per g of a fat. | Give milligrams of potassium hydroxide per gram, "
           "near 190 for most oils; figures like 0.135 or 135 are sodium hydroxide and belong to "
           "another sum.";
  };
  const double least = 150 * (1 - 0.01);
  CHECK(of_fat(fat("odd", 10, least, 160, 170, 0.01)) == kTaken);
  CHECK(of_fat(fat("odd", 10, 148.4995, 160, 170, 0.01)) == no_fat("148.500 to 170.000"));
  CHECK(of_fat(fat("odd", 10, 148.25, 160, 170, 0.01)) == no_fat("148.250 to 170.000"));
  CHECK(of_fat(fat("odd", 10, 500, 550, 600)) == kTaken);
  CHECK(of_fat(fat("odd", 10, 500, 550, 600.0004)) == no_fat("500.000 to 600.000"));
  // A wax goes lower.
  auto wax = fat("odd", 1, 30, 45, 60);
  wax.form = FatForm::wax;
  CHECK(of_fat(wax) == kTaken);
  wax.saponification_value.low = 29.9;
  CHECK(of_fat(wax) == no_fat("29.900 to 60.000"));
}

TEST_CASE("an unsaponifiable share is none to all of the fat", "[lye input]") {
  const std::string no_share =
      "The unsaponifiable share of 'odd' is not a percentage. | Give it between 0 and 100 %.";
  CHECK(of_fat(fat("odd", 1, 190, 190, 190, 0)) == kTaken);
  CHECK(of_fat(fat("odd", 1, 0, 0, 0, 1)) == kTaken);  // a hydrocarbon
  for (const double none : {-0.01, 1.005, kNan}) {
    INFO(none);
    CHECK(of_fat(fat("odd", 1, 190, 190, 190, none)) == no_share);
  }
}

TEST_CASE("up to a tenth of wax is taken, and each is named once", "[lye input]") {
  auto wax = fat("wool fat", 100, 90, 96, 102, 0.48);
  wax.acid_value = 90;
  CHECK(of_fat(wax, 900) == kTaken);
  // Shares of the same tenth whose sum falls a last digit short of it.
  for (const double grams : {1.9, 3.3, 13.2, 57.3, 113.8}) {
    INFO(grams);
    wax.grams = grams;
    const Scales assay{{1e-6, {}}, {1e-6, {}}};
    CHECK(refusal_of([&] {
            lye_for({{steady(3 * grams), steady(6 * grams), wax}}, {}, {}, assay, 10 * grams);
          }) == kTaken);
  }
  wax.grams = 100.5;
  auto other = wax;
  other.name = "wool";
  other.grams = 0.25;
  CHECK(refusal_of([&] {
          lye_for({{steady(899.25), wax, other, other}}, {}, {}, fine_scales(), 1000);
        }) ==
        "Wax and its like (wool fat, wool) is 10.1 % of the fat. It saponifies slowly and in part: "
        "lye meant for it stays free, and little of it is soap. | Keep it to at most 10 % of the "
        "fats (our judgement), with oils or butters for the rest.");
  wax.grams = 100.1;
  CHECK_THAT(of_fat(wax, 899.9), Contains("(wool fat) is 10.0 % of the fat."));
}

TEST_CASE("what is waxlike is richer in unsaponifiables than a quarter", "[lye input]") {
  CHECK_FALSE(saponifies_in_part(fat("a quarter", 1, 150, 150, 150, 0.25)));
  CHECK(saponifies_in_part(fat("more", 1, 150, 150, 150, 0.251)));
  CHECK_FALSE(saponifies_in_part(olive(1)));
  auto wax = olive(1);
  wax.form = FatForm::wax;
  CHECK(saponifies_in_part(wax));
}

TEST_CASE("an alkali is as strong as what is sold", "[lye input]") {
  const auto of_strength = [](const Strength& strength) {
    LyeSettings settings;
    settings.naoh_strength = strength;
    settings.superfat = 0.30;
    return of_settings(settings);
  };
  const std::string no_strength =
      "The strength of the sodium hydroxide is not a percentage that can be sold as such. | State "
      "the assay of the flakes or beads, between 50 and 100 %; ready-made lye cannot be weighed as "
      "dry alkali.";
  for (const Strength& good :
       {Strength{1, {}, {}}, Strength{0.98, 0.97, {}}, Strength{0.98, {}, 1},
        Strength{0.98, {}, 0.99}, Strength{0.98, 0.97, 0.99}, Strength{0.98, 0.98, 0.98}}) {
    INFO(good.stated);
    CHECK(of_strength(good) == kTaken);
  }
  // 50 % is lye out of a can.
  CHECK_THAT(of_strength({0.502, {}, 0.502}), !Contains("cannot be weighed as dry alkali"));
  for (const Strength& bad :
       {Strength{0.5, {}, {}}, Strength{1.001, {}, {}}, Strength{kNan, {}, {}},
        Strength{0.98, 0.4, {}}, Strength{0.98, 1.2, {}}, Strength{0.98, {}, 1.2},
        Strength{0.98, {}, 0.4}, Strength{0.98, 0.4, 0.99}, Strength{0.98, 0.97, 1.2},
        Strength{0.98, 0.99, 0.97}}) {
    INFO(bad.stated << ' ' << bad.least.value_or(0) << ' ' << bad.most.value_or(0));
    CHECK(of_strength(bad) == no_strength);
  }
  LyeSettings settings;
  settings.alkali = LyeSettings::Choice::potassium_hydroxide;
  CHECK(of_settings(settings) ==
        "The strength of the potassium hydroxide is not stated; what is sold runs from 85 to 92 %, "
        "and no figure is safe to assume. | Read the assay off the supplier's certificate and "
        "state it, such as 90 %.");
}

TEST_CASE("a superfat and its floor are none or more, and no more than half", "[lye input]") {
  const auto of_aim = [](double aim, double floor) {
    LyeSettings settings;
    settings.superfat = aim;
    settings.never_below = floor;
    return of_settings(settings);
  };
  CHECK(of_aim(0, 0) == kTaken);  // it rises
  for (const double none : {kNan, kInf}) {
    const std::string no_number =
        "The superfat is not a number. | Give it as a percentage, such as 5 %.";
    CHECK(of_aim(none, 0) == no_number);
    CHECK(of_aim(0.05, none) == no_number);
    CHECK(of_aim(none, none) == no_number);
  }
  CHECK(of_aim(-0.001, 0) ==
        "A superfat of -0.1 % leaves free alkali in the bar, which burns skin. | Aim for 5 %, and "
        "never below 0 %.");
  CHECK(of_aim(0.05, -0.001) ==
        "A superfat floor of -0.1 % would allow free alkali in the bar, which burns skin. | Set "
        "never-below to 0 % or more.");
  CHECK(of_aim(0.5, 0) == kTaken);
  CHECK(
      of_aim(0.501, 0) ==
      "A superfat of 50.1 % leaves most of the oil as oil. | Aim for at most 50 %; 5 % is usual.");
}

TEST_CASE("a floor above the aim is refused where no rise can reach it", "[lye input]") {
  const auto of_floor = [](double aim, double floor) {
    LyeSettings settings;
    settings.superfat = aim;
    settings.never_below = floor;
    return of_settings(settings);
  };
  CHECK(of_floor(0.05, 0.06) == kTaken);  // rises to 7 %
  CHECK(of_floor(0.10, 0.09) == kTaken);
  CHECK(of_floor(0.05, 0.0805) ==
        "The superfat may never fall below 8.1 %, but the aim is only 5.0 %. | Raise the aim above "
        "the floor, or lower the floor.");
  // As high as a rise goes, or as the aim: out of reach for the fat's own doubt.
  CHECK_THAT(of_floor(0.05, 0.08), Contains("Even at 8.0 % superfat the worst case is 7.4 %"));
  CHECK_THAT(of_floor(0.10, 0.10), Contains("Even at 10.0 % superfat the worst case is 9.4 %"));
}

TEST_CASE("potash of ninety per cent is no label's floor, to the last digit", "[lye input]") {
  const auto kK = Alkali::potassium_hydroxide;
  CHECK_FALSE(may_be_a_floor(kK, {0.3 * 3, {}, {}}));  // 0.8999999999999999
  CHECK_FALSE(may_be_a_floor(kK, {0.90 - 1e-9, {}, {}}));
  CHECK(may_be_a_floor(kK, {0.8999, {}, {}}));
}
