#include "core/bench/cure.hpp"

#include <catch2/catch.hpp>

#include "core/bench/cut.hpp"
#include "core/units/error.hpp"

using namespace barwright::core;

TEST_CASE("a bar dries towards its cured share, thick ones slowly", "[cure]") {
  CHECK(water_share_after(0.25, 0) == Approx(0.25));
  CHECK(water_share_after(0.25, 1000) == Approx(cured_water().span.typical).margin(1e-6));
  CHECK(water_share_after(0.25, 14) > water_share_after(0.25, 28));
  CHECK(water_share_after(0.25, 28, 50) > water_share_after(0.25, 28, 25));
  CHECK(drying_weeks(0.25) >= 4);
  CHECK(drying_weeks(0.32) >= drying_weeks(0.22));
}

TEST_CASE("a cut plan adds up to its log", "[cure]") {
  const auto plan = cut_plan(260, {26, 1, 5});
  CHECK(plan.bars == 9);
  REQUIRE(plan.cuts_mm.size() == 10);
  CHECK(plan.cuts_mm.front() == 5);
  CHECK(plan.cuts_mm[1] == 32);  // 5 trim + 1 kerf + 26
  CHECK(plan.cuts_mm.back() == 5 + 1 + 9 * 26 + 8);
  CHECK(plan.left_over_mm == Approx(260 - 5 - 10 - 9 * 26));
  const auto whole = cut_plan(250, {25, 0, 0});
  CHECK(whole.bars == 10);
  CHECK(whole.cuts_mm.size() == 9);
  CHECK(whole.left_over_mm == Approx(0));
  CHECK_THROWS_AS(cut_plan(0, {25, 0, 0}), Refusal);
}
