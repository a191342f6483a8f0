#include "core/lye/addition.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/units/error.hpp"
#include "said.hpp"

using namespace barwright::core;

namespace {

std::string refusal(const Addition& addition) {
  return barwright::tests::refusal([&] { check(addition); });
}

constexpr double Addition::*kShares[] = {&Addition::water, &Addition::fat, &Addition::sugar,
                                         &Addition::alcohol, &Addition::salt};

/// An addition at trace whose fat, should it have any, has a saponification value.
Addition potion() {
  Addition out{"potion", 100};
  out.fat_saponification_value = {210, 228, 240};
  return out;
}

const std::string kNoSense =
    "The shares of water, fat, sugar, alcohol and salt in 'potion' do not make sense together. "
    "Give "
    "each as a percentage of the addition; together at most 100 %.";

}  // namespace

TEST_CASE("a share of an addition lies between none and all of it", "[addition]") {
  for (const auto share : kShares) {
    for (const double none : {-0.01, 1.01, static_cast<double>(NAN)}) {
      INFO(none);
      auto addition = potion();
      addition.*share = none;
      CHECK(refusal(addition) == kNoSense);
    }
    auto addition = potion();
    addition.*share = 1;
    CHECK(refusal(addition) == "taken");
    // Taken together, each with each.
    for (const auto other : kShares) {
      if (other == share) continue;
      auto both = potion();
      both.*share = 0.6;
      both.*other = 0.5;
      CHECK(refusal(both) == kNoSense);
      both.*other = 0.4;
      CHECK(refusal(both) == "taken");
    }
  }
  // What the last binary digits make of a sum of shares is no reason to refuse.
  auto full = potion();
  full.water = 1;
  full.sugar = 1e-9;
  CHECK(refusal(full) == "taken");
  full.sugar = 1e-8;
  CHECK(refusal(full) == kNoSense);
}

TEST_CASE("the acid in an addition is a share of it too", "[addition]") {
  auto sour = potion();
  for (const double none : {-0.01, 1.01, static_cast<double>(NAN)}) {
    INFO(none);
    sour.acid = Acid{"", AcidForm::lactic, none, 0.9};
    CHECK(refusal(sour) == kNoSense);
  }
  sour.acid->grams = 1;
  CHECK(refusal(sour) == "taken");
}

TEST_CASE("the weight of an addition is none below zero, nor without end", "[addition]") {
  auto addition = potion();
  for (const double none : {-0.1, static_cast<double>(NAN), static_cast<double>(INFINITY)}) {
    INFO(none);
    addition.grams = none;
    CHECK(refusal(addition) == "The weight of 'potion' is not a weight. Give it in grams.");
  }
  addition.grams = 0;
  CHECK(refusal(addition) == "taken");
  CHECK(Addition{}.grams == 0);
}

TEST_CASE("fat without a saponification value is refused, whatever else is known", "[addition]") {
  auto fatty = potion();
  fatty.fat = 0.05;
  fatty.fat_saponification_value = {0, 228, 240};
  CHECK(refusal(fatty) ==
        "The fat in 'potion' has no saponification value, so its lye is unknown. State the "
        "saponification value of that fat, or leave the addition out.");
  fatty.fat_saponification_value.low = 0.5;  // whether a value can be meant, the lye pot judges
  CHECK(refusal(fatty) == "taken");
}

TEST_CASE("traces of alcohol and fat may meet the lye, more may not; sugar may, dissolved",
          "[addition]") {
  for (const Into into : {Into::lye, Into::cooled_lye}) {
    auto addition = potion();
    addition.into = into;
    addition.alcohol = addition.sugar = addition.fat = 0.005;
    CHECK(refusal(addition) == "taken");
    addition.alcohol = 0.00502;
    CHECK(refusal(addition) ==
          "Alcohol in 'potion' boils up when it meets lye. Boil the alcohol off and let it go flat "
          "and cold first, or add it at trace.");
    addition.frozen = true;  // ice holds no alcohol back
    CHECK(refusal(addition).substr(0, 19) == "Alcohol in 'potion'");
    addition.frozen = false;
    addition.alcohol = 0;
    // Ice dissolves the alkali slowly; milk may also join lye that is cool already.
    auto milk = addition;
    milk.sugar = 0;
    milk.fat = 0.00502;
    const std::string scorches =
        "Milk and cream in hot lye scorch and can boil over; 'potion' is meant for the water the "
        "alkali goes into. Freeze it ('frozen: yes') and dissolve the alkali in the ice a little "
        "at "
        "a time, or make the lye with plain water and add 'potion' 'when: lye is cold', or at "
        "trace.";
    const std::string lies =
        "Syrups and fats lie on made lye and scorch; 'potion' is meant for it. Dissolve sugar in "
        "the "
        "water before the alkali, or add 'potion' at trace.";
    CHECK(refusal(milk) == (into == Into::lye ? scorches : lies));
    milk.water = 0.51;
    CHECK(refusal(milk) == (into == Into::lye ? scorches : "taken"));
    milk.water = 0.5;
    CHECK(refusal(milk) == (into == Into::lye ? scorches : lies));
    milk.frozen = true;
    CHECK(refusal(milk) == (into == Into::lye ? "taken" : lies));
    auto sugar = addition;
    sugar.fat = 0;
    sugar.sugar = 1;
    CHECK(refusal(sugar) == (into == Into::lye ? "taken" : lies));
    for (const Into late : {Into::oils, Into::trace}) {
      milk.into = sugar.into = late;
      CHECK(refusal(milk) == "taken");
      CHECK(refusal(sugar) == "taken");
    }
  }
}

TEST_CASE("sodium lactate syrup holds the water its strength leaves", "[addition]") {
  for (const double none : {-0.1, 0.0, 1.01, 60.0, static_cast<double>(NAN)}) {
    INFO(none);
    CHECK(barwright::tests::refusal([&] { sodium_lactate_syrup(30, none); }) ==
          "The strength of the sodium lactate syrup is not a percentage. Read it off the bottle, "
          "such as 60 %.");
  }
  CHECK(sodium_lactate_syrup(30).water == Approx(0.4).epsilon(1e-15));
  CHECK(sodium_lactate_syrup(30, 1).water == 0);
  CHECK(sodium_lactate_syrup(30, 0.5).grams == 30);
  CHECK(sodium_lactate_syrup(30).into == Into::cooled_lye);
  CHECK(sodium_lactate_powder(20).into == Into::cooled_lye);
  CHECK(sodium_lactate_powder(20).water == 0);
}

TEST_CASE("whole milk is 87.5 % water, 3.5 % fat, 4.8 % lactose", "[addition]") {
  // Recalled: usual food table figures; the range of butter fat too, its typical value computed.
  const auto milk = whole_milk(150);
  CHECK(milk.grams == 150);
  CHECK(milk.water == 0.875);
  CHECK(milk.fat == 0.035);
  CHECK(milk.sugar == 0.048);
  CHECK(milk.alcohol == 0);
  CHECK(milk.fat_saponification_value == Span{210, 228, 240});
  CHECK(milk.into == Into::trace);
}
