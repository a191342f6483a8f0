// When one lye serves several parts, each part has its own floor: how far its superfat rises to
// keep it, and what the maker is told when it may not, or not far enough.
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/lye/batch.hpp"
#include "core/units/error.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

/// Two scales good to a milligram: only the fat's own doubt is left.
Scales milligrams() { return {{0.001, {}}, {0.001, {}}}; }

/// A part of one fat whose value is known as well as any uncertified lot is: to 2 %. Its worst case
/// at superfat s is 1 - (1 - s) / 0.98.
LyeNeed part(const std::string& name, double superfat, double never_below) {
  return {name, {fat("fat", 1000, 256, 256, 256)}, {}, superfat, never_below, true};
}

double raised(const LyeNeed& need) {
  const std::vector<LyeNeed> parts = {need};
  return share_lye(parts, {}, milligrams(), 1000).portions[0].raised_superfat;
}

std::string refusal(const LyeNeed& need) {
  const std::vector<LyeNeed> parts = {part("body", 0.05, 0), need};
  try {
    share_lye(parts, {}, milligrams(), 2000);
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "taken";
}

}  // namespace

TEST_CASE("a part's superfat rises by half points until its worst case keeps its floor",
          "[batch]") {
  // By hand: at 2 % the worst case is 1 - 0.98 / 0.98 = 0 less the scales' errors, at 2.5 % 0.51 %.
  CHECK(raised(part("soap", 0.03, 0)) == 0.03);
  CHECK(raised(part("soap", 0.01, 0)) == Approx(0.025).epsilon(1e-9));
  CHECK(raised(part("soap", 0, 0)) == Approx(0.025).epsilon(1e-9));
  CHECK(raised(part("soap", 0.01, 0.0050)) == Approx(0.025).epsilon(1e-9));
  CHECK(raised(part("soap", 0.01, 0.0052)) == Approx(0.03).epsilon(1e-9));
}

TEST_CASE("one part's rise leaves the others where they were", "[batch]") {
  const std::vector<LyeNeed> parts = {part("body", 0.05, 0), part("topping", 0.01, 0)};
  const auto lye = share_lye(parts, {}, milligrams(), 2000);
  CHECK(lye.portions[0].raised_superfat == 0.05);
  CHECK(lye.portions[0].check.superfat == Approx(0.05).margin(1e-4));
  CHECK(lye.portions[1].raised_superfat == Approx(0.025).epsilon(1e-9));
  CHECK(lye.portions[1].check.superfat == Approx(0.025).margin(1e-4));
  // What is weighed is for the superfats as they are made: 256 g of potassium hydroxide per
  // kilogram.
  CHECK(lye.alkali[0].exact_grams == Approx(256 * (0.95 + 0.975) * 39.997 / 56.106).epsilon(1e-9));
}

TEST_CASE("a worst case on the floor is not below it", "[batch]") {
  auto need = part("soap", 0.05, 0);
  const std::vector<LyeNeed> parts = {need};
  const double worst = share_lye(parts, {}, milligrams(), 1000).portions[0].check.band.low;
  CHECK(worst == Approx(1 - 0.95 / 0.98).margin(1e-4));
  need.never_below = worst;
  CHECK(raised(need) == 0.05);
  need.never_below = worst + 1e-9;
  CHECK(raised(need) == Approx(0.055).epsilon(1e-9));
}

TEST_CASE("a part that may not rise is refused with its worst case and its floor", "[batch]") {
  auto need = part("topping", 0.01, 0);
  need.may_raise = false;
  CHECK(
      refusal(need) ==
      "At 1.0 % superfat the worst case of the topping is -1.0 %, below its floor of 0.0 %, and "
      "'raise: no' keeps it from rising. Aim higher, lower 'never-below' (not below 0 %), or take "
      "'raise: no' out.");
  need.superfat = 0.03;  // it need not
  CHECK(refusal(need) == "taken");
}

TEST_CASE("no part rises past 8 %, or past its own aim where that is higher", "[batch]") {
  const std::string remedy =
      " Use a finer scale or a larger batch, or get the certificate of the oil with the loosest "
      "figures.";
  // 1 - 0.92 / 0.98 = 6.1 %.
  CHECK(refusal(part("topping", 0.05, 0.09)) ==
        "Even at 8.0 % superfat the worst case of the topping is 6.1 %, below its floor of 9.0 %." +
            remedy);
  CHECK(refusal(part("topping", 0.05, 0.061)) == "taken");  // at 8 % itself
  // Half a point more would be 8.04 %.
  CHECK(refusal(part("topping", 0.0754, 0.09)) ==
        "Even at 7.5 % superfat the worst case of the topping is 5.7 %, below its floor of 9.0 %." +
            remedy);
  CHECK(
      refusal(part("topping", 0.10, 0.09)) ==
      "Even at 10.0 % superfat the worst case of the topping is 8.2 %, below its floor of 9.0 %." +
          remedy);
}

TEST_CASE("the last binary digits of an aim do not cost it its last half point", "[batch]") {
  const double most = 0.08 + 1e-12;
  double aim = most - 0.005;
  while (aim + 0.005 < most) aim = std::nextafter(aim, 1.0);
  while (aim + 0.005 > most) aim = std::nextafter(aim, 0.0);
  REQUIRE(aim + 0.005 == most);
  CHECK(refusal(part("topping", aim, 0.09)).substr(0, 14) == "Even at 8.0 % ");
  CHECK(refusal(part("topping", aim + 1e-11, 0.09)).substr(0, 14) == "Even at 7.5 % ");
}

TEST_CASE("superfats and floors that are not ones to make", "[batch]") {
  const std::string none =
      "The superfat of the topping is not one to make. Aim for 5 %, and never below 0 %.";
  for (const double superfat : {-0.001, 0.501, 0.7, static_cast<double>(NAN)}) {
    INFO(superfat);
    CHECK(refusal(part("topping", superfat, 0)) == none);
  }
  CHECK(refusal(part("topping", 0.5, 0)) == "taken");
  CHECK(refusal(part("topping", 0, 0)) == "taken");
  for (const double floor : {-0.001, static_cast<double>(NAN)}) {
    INFO(floor);
    CHECK(refusal(part("topping", 0.05, floor)) == none);
  }
}
