#include "core/quantity.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

using namespace barwright::core;

TEST_CASE("weights convert by definition", "[quantity]") {
  CHECK(to_grams(parse_quantity("2600 g")) == 2600);
  CHECK(to_grams(parse_quantity("2.6kg")) == Approx(2600).epsilon(1e-15));
  CHECK(to_grams(parse_quantity("1 lb")) == 453.59237);  // 1959 agreement, exact
  CHECK(to_grams(parse_quantity("16 oz")) == Approx(453.59237).epsilon(1e-15));
  CHECK(to_grams(parse_quantity("250 mg")) == Approx(0.25).epsilon(1e-15));
  CHECK(to_grams(parse_quantity("3 LBS")) == Approx(3 * 453.59237).epsilon(1e-15));
}

TEST_CASE("fractions and compound weights read as a maker writes them", "[quantity]") {
  CHECK(to_grams(parse_quantity("1 1/2 lb")) == Approx(1.5 * 453.59237).epsilon(1e-15));
  CHECK(to_grams(parse_quantity("1/2 lb")) == Approx(0.5 * 453.59237).epsilon(1e-15));
  CHECK(to_grams(parse_quantity("1\xC2\xBD lb")) == Approx(1.5 * 453.59237).epsilon(1e-15));
  CHECK(to_grams(parse_quantity("3 lb 4 oz")) == Approx(3.25 * 453.59237).epsilon(1e-15));
  CHECK(to_grams(parse_quantity("3 lb 4 1/2 oz")) == Approx(3.28125 * 453.59237).epsilon(1e-15));
  CHECK_THROWS_AS(parse_quantity("4 oz 3 lb"), UnitError);
  CHECK_THROWS_AS(parse_quantity("3 lb 4 C"), UnitError);
  CHECK_THROWS_AS(parse_quantity("3 4 lb"), UnitError);
  CHECK_THROWS_AS(parse_quantity("1/0 lb"), UnitError);
}

TEST_CASE("volumes convert by definition and need a density to become weights", "[quantity]") {
  CHECK(to_millilitres(parse_quantity("1 fl oz")) == 29.5735295625);  // US gallon / 128, exact
  CHECK(to_millilitres(parse_quantity("1 fl. oz.")) == 29.5735295625);
  CHECK(to_millilitres(parse_quantity("1 imperial fl oz")) == 28.4130625);
  CHECK(to_millilitres(parse_quantity("1 gal")) == Approx(3785.411784).epsilon(1e-15));
  CHECK(to_millilitres(parse_quantity("75 cL")) == 750);
  CHECK(to_grams(parse_quantity("2 tbsp"), 1.0) == Approx(29.5735295625).epsilon(1e-15));
  CHECK(to_grams(parse_quantity("1 tsp"), 2.0) == Approx(9.8578431875).epsilon(1e-15));
  CHECK(to_grams(parse_quantity("1 cup"), 0.92) == Approx(236.5882365 * 0.92).epsilon(1e-14));
  CHECK(to_grams(parse_quantity("5 g"), 0.92) == 5);
  CHECK_THROWS_AS(to_grams(parse_quantity("1 cup")), UnitError);
  CHECK_THROWS_AS(to_grams(parse_quantity("1 cup"), 0.0), UnitError);
}

TEST_CASE("plain ounces for a volume are asked about", "[quantity]") {
  try {
    to_millilitres(parse_quantity("8 ounces"));
    FAIL("taken without asking");
  } catch (const UnitError& error) {
    CHECK(std::string(error.what()).find("or fluid ounces?") != std::string::npos);
    CHECK(error.remedy().find("fl oz") != std::string::npos);
  }
}

TEST_CASE("temperatures convert", "[quantity]") {
  CHECK(to_celsius(parse_quantity("212 F")) == 100);
  CHECK(to_celsius(parse_quantity("100 F")) == Approx(340.0 / 9).epsilon(1e-14));
  CHECK(to_celsius(parse_quantity("38 \xC2\xB0"
                                  "C")) == 38);
}

TEST_CASE("a degree sign alone is not a temperature unit", "[quantity]") {
  CHECK_THROWS_AS(to_celsius(parse_quantity("38\xC2\xB0")), UnitError);
  CHECK_THROWS_AS(to_celsius(parse_quantity("-300 C")), UnitError);
  CHECK(to_celsius(parse_quantity("-5 deg C")) == -5);
}

TEST_CASE("lengths, shares and times convert", "[quantity]") {
  CHECK(to_millimetres(parse_quantity("2 in")) == Approx(50.8).epsilon(1e-15));
  CHECK(to_millimetres(parse_quantity("26 cm")) == 260);
  CHECK(to_fraction(parse_quantity("5 %")) == Approx(0.05).epsilon(1e-15));
  CHECK(to_fraction(parse_quantity("5%")) == Approx(0.05).epsilon(1e-15));
  CHECK(to_fraction(parse_quantity("200 ppm")) == Approx(2e-4).epsilon(1e-15));
  CHECK(to_hours(parse_quantity("36 h")) == 36);
  CHECK(to_hours(parse_quantity("6 weeks")) == 1008);
  CHECK(to_hours(parse_quantity("90 min")) == Approx(1.5).epsilon(1e-15));
}

TEST_CASE("what is no quantity is refused", "[quantity]") {
  for (const char* text : {"", "g", "nan g", "inf g", "1e999 g", "--5 g", "1,500 g", "1,5 kg"}) {
    INFO(text);
    CHECK_THROWS_AS(parse_quantity(text), UnitError);
  }
  CHECK_THROWS_AS(to_grams(parse_quantity("5")), UnitError);
  CHECK_THROWS_AS(to_grams(parse_quantity("5 stone")), UnitError);
  CHECK_THROWS_AS(to_grams(parse_quantity("5 %")), UnitError);
  CHECK_THROWS_AS(to_grams(parse_quantity("-5 g")), UnitError);
  CHECK_THROWS_AS(to_fraction(parse_quantity("0.05")), UnitError);
  CHECK_THROWS_AS(to_grams(Quantity{NAN, "g"}), UnitError);
}
