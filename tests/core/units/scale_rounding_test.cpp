#include <catch2/catch.hpp>

#include "core/units/scale.hpp"

using namespace barwright::core;

TEST_CASE("scales of any step round as their display does", "[lye]") {
  CHECK(rounded_down(283.6, 1.5) == 283.5);
  CHECK(rounded_down(284.99, 1.5) == 283.5);
  CHECK(rounded_down(285.0, 1.5) == 285.0);
  CHECK(rounded_down(0.3, 0.1) == 0.3);  // 0.3 / 0.1 is a hair below 3 in binary
  CHECK(rounded_down(135.39, 0.1) == 135.3);
  CHECK(rounded(135.36, 0.1) == 135.4);
  CHECK(rounded(135.34, 0.1) == 135.3);
  CHECK(rounded_down(10.0, 0.3) == 9.9);
  CHECK(rounded(1.0, 0.3) == 0.9);
  CHECK(usual_step(0.7) == Approx(0.5));
  CHECK(usual_step(0.3) == Approx(0.2));
  CHECK(usual_step(1.9) == Approx(1.0));
  CHECK(usual_step(5.0) == Approx(5.0));
}
