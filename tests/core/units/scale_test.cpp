#include "core/units/scale.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/units/error.hpp"

using namespace barwright::core;

namespace {

constexpr double kNone = NAN;

std::string refusal(const Scales& scales) {
  try {
    check(scales);
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "taken";
}

}  // namespace

TEST_CASE("a scale whose step or error is no weight is refused by name", "[scale]") {
  const std::string remedy =
      " scale's step or error is not a weight. Give the smallest step the scale shows, such as 1 g "
      "or 0.1 g.";
  for (const double none : {0.0, -1.0, kNone, static_cast<double>(INFINITY)}) {
    INFO(none);
    CHECK(refusal({{none, 1.0}, {}}) == "The oils" + remedy);
    CHECK(refusal({{}, {none, 1.0}}) == "The lye" + remedy);
    CHECK(refusal({{}, {none, {}}}) == "The lye" + remedy);
  }
  for (const double none : {-0.1, kNone, static_cast<double>(INFINITY)}) {
    INFO(none);
    CHECK(refusal({{1, none}, {}}) == "The oils" + remedy);
    CHECK(refusal({{}, {1, none}}) == "The lye" + remedy);
  }
  CHECK(refusal({{}, {0.1, 0.0}}) == "taken");
  CHECK(refusal({{0.001, 5.0}, {0.1, {}}}) == "taken");
}

TEST_CASE("the usual steps of scales are 1, 2 and 5 of every decade", "[scale]") {
  CHECK(usual_step(1) == 1);
  CHECK(usual_step(1.99) == 1);
  CHECK(usual_step(2) == 2);
  CHECK(usual_step(4.99) == 2);
  CHECK(usual_step(5) == 5);
  CHECK(usual_step(9.99) == 5);
  CHECK(usual_step(20) == 20);
  CHECK(usual_step(0.67) == Approx(0.5));
  CHECK(usual_step(0.25) == Approx(0.2));
}

TEST_CASE("grams on a decimal scale are decimals, on any other they stay on its steps", "[scale]") {
  CHECK(rounded(135.27, 0.1) == 135.3);
  CHECK(rounded_down(135.39, 0.1) == 135.3);
  CHECK(rounded_down(0.3, 0.1) == 0.3);  // 0.3 / 0.1 is a hair below 3
  CHECK(rounded(4, 1.5) == 4.5);
  CHECK(rounded_down(4.4, 1.5) == 3);
  // A scale in sevenths of a gram: nearest to a billionth they would lie off its steps, either way.
  for (const int steps : {2, 3, 5}) {
    INFO(steps);
    CHECK(rounded(steps / 7.0, 1.0 / 7) == steps * (1.0 / 7));
  }
}
