// Each curve runs through its own published points, and straight between two of them.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/lye/solubility.hpp"
#include "core/units/scale.hpp"

using namespace barwright::core;

TEST_CASE("first crystals stand where the handbooks put them", "[alkali]") {
  // Seidell, Solubilities of Inorganic Compounds, and makers' caustic soda handbooks; recalled.
  const auto soda = [](double c) { return first_crystals_celsius(Alkali::sodium_hydroxide, c); };
  const auto potash = [](double c) {
    return first_crystals_celsius(Alkali::potassium_hydroxide, c);
  };
  struct Point {
    double concentration, celsius;
  };
  for (const Point at : {Point{0, 0},
                         {0.10, -10},
                         {0.19, -28},
                         {0.25, -15},
                         {0.30, 1},
                         {0.32, 5},
                         {0.35, 10},
                         {0.388, 15.6},
                         {0.42, 13},
                         {0.455, 5},
                         {0.50, 14},
                         {0.522, 20},
                         {0.543, 30},
                         {0.563, 40},
                         {0.592, 50},
                         {0.69, 65}}) {
    INFO(at.concentration);
    CHECK(soda(at.concentration) == Approx(at.celsius).margin(1e-9));
  }
  for (const Point at : {Point{0, 0},
                         {0.20, -20},
                         {0.31, -65},
                         {0.45, -25},
                         {0.492, 0},
                         {0.508, 10},
                         {0.528, 20},
                         {0.558, 30},
                         {0.575, 40},
                         {0.584, 50},
                         {0.64, 100}}) {
    INFO(at.concentration);
    CHECK(potash(at.concentration) == Approx(at.celsius).margin(1e-9));
  }
  CHECK(soda(0.335) == Approx(7.5).margin(1e-9));  // half way from 5 to 10 C
  CHECK(std::isinf(soda(0.70)));
}

TEST_CASE("the strongest clear lye lies on the way from the coldest point", "[alkali]") {
  const auto soda = [](double c) { return strongest_clear(Alkali::sodium_hydroxide, c); };
  CHECK(soda(-15) == Approx(0.25).margin(1e-9));
  CHECK(soda(7.5) == Approx(0.335).margin(1e-9));
  // Past the hump of 15.6 C every weaker lye stays clear too.
  CHECK(soda(20) == Approx(0.522).margin(1e-9));
  CHECK(soda(-40) == 0);
  CHECK(soda(90) == Approx(0.69));
  CHECK(strongest_clear(Alkali::potassium_hydroxide, 20) == Approx(0.528).margin(1e-9));
}

TEST_CASE("salt in lye stands where the handbooks put it", "[alkali]") {
  // Brine and caustic handbooks at 20 C; recalled.
  const double lye[] = {0, 0.10, 0.20, 0.30, 0.40, 0.50};
  const double salt[] = {26.4, 18.0, 10.4, 4.3, 1.8, 1.0};
  for (int i = 0; i < 6; ++i) CHECK(salt_solubility(lye[i]) == Approx(salt[i]).margin(1e-9));
  CHECK(salt_solubility(0.05) == Approx(22.2).margin(1e-9));
}

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
