#include "core/units/quantity.hpp"

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

TEST_CASE("every word for a weight", "[quantity]") {
  for (const char* text : {"7 g", "7 gram", "7 grams", "7 gramme", "7 grammes"}) {
    INFO(text);
    CHECK(to_grams(parse_quantity(text)) == 7);
  }
  for (const char* text : {"2 kg", "2 kilo", "2 kilos", "2 kilogram", "2 kilograms"}) {
    INFO(text);
    CHECK(to_grams(parse_quantity(text)) == 2000);
  }
  for (const char* text :
       {"2 lb", "2 lbs", "2 pound", "2 pounds", "32 oz", "32 ounce", "32 ounces"}) {
    INFO(text);
    CHECK(to_grams(parse_quantity(text)) == Approx(907.18474).epsilon(1e-15));
  }
}

TEST_CASE("every word for a volume", "[quantity]") {
  for (const char* text :
       {"7 mL", "7 millilitre", "7 millilitres", "7 milliliter", "7 milliliters"}) {
    INFO(text);
    CHECK(to_millilitres(parse_quantity(text)) == 7);
  }
  for (const char* text : {"2 L", "2 litre", "2 litres", "2 liter", "2 liters", "200 cl"}) {
    INFO(text);
    CHECK(to_millilitres(parse_quantity(text)) == 2000);
  }
  for (const char* text :
       {"1 gal", "1 us gal", "1 gallon", "1 gallons", "128 us fl oz", "128 fluid ounce",
        "128 fluid ounces", "16 cup", "16 cups", "256 tbsp", "256 tablespoon", "256 tablespoons",
        "768 tsp", "768 teaspoon", "768 teaspoons"}) {
    INFO(text);
    CHECK(to_millilitres(parse_quantity(text)) == Approx(3785.411784).epsilon(1e-14));
  }
  for (const char* text : {"1 imp gal", "1 imperial gal", "160 imp fl oz", "160 imperial fl oz"}) {
    INFO(text);
    CHECK(to_millilitres(parse_quantity(text)) == Approx(4546.09).epsilon(1e-14));
  }
}

TEST_CASE("every word for a length, a share, a time", "[quantity]") {
  CHECK(to_millimetres(parse_quantity("7 mm")) == 7);
  CHECK(to_millimetres(parse_quantity("2 m")) == 2000);
  CHECK(to_millimetres(parse_quantity("1 inch")) == 25.4);
  CHECK(to_millimetres(parse_quantity("10 inches")) == 254);
  CHECK(to_fraction(parse_quantity("5 percent")) == Approx(0.05).epsilon(1e-15));
  CHECK(to_fraction(parse_quantity("5 per cent")) == Approx(0.05).epsilon(1e-15));
  for (const char* text : {"7 days", "7 day", "1 week", "1 weeks", "168 hours", "168 hour",
                           "10080 minutes", "10080 minute"}) {
    INFO(text);
    CHECK(to_hours(parse_quantity(text)) == Approx(168).epsilon(1e-14));
  }
}

TEST_CASE("a sign stands for the whole of a compound weight", "[quantity]") {
  const auto below = parse_quantity("-3 lb 4 oz");
  CHECK(below.unit == "g");
  CHECK(below.value == Approx(-3.25 * 453.59237).epsilon(1e-14));
  CHECK(parse_quantity("+3 lb 4 oz").value == Approx(3.25 * 453.59237).epsilon(1e-14));
  CHECK(parse_quantity("+5 C").value == 5);
  CHECK(parse_quantity("-5 C").value == -5);
  CHECK_THROWS_AS(parse_quantity("3 lb 2 lb"), UnitError);
}

TEST_CASE("signs, blanks and degrees as they are typed", "[quantity]") {
  CHECK(to_grams(parse_quantity("\xC2\xBC kg")) == 250);
  CHECK(to_grams(parse_quantity("\xC2\xBE kg")) == 750);
  CHECK(to_grams(parse_quantity("2 \xC2\xBE kg")) == 2750);
  CHECK(to_grams(parse_quantity("  \t2600\xC2\xA0g \n")) == 2600);
  CHECK(to_grams(parse_quantity("3 /4 kg")) == 750);
  CHECK(to_millilitres(parse_quantity("1 imp\xC2\xA0gal")) == Approx(4546.09).epsilon(1e-14));
  CHECK(to_celsius(parse_quantity("38 \xC2\xBA"
                                  "C")) == 38);
  for (const char* text :
       {"38 degrees Celsius", "38 degree c", "38 centigrade", "100.4 Fahrenheit"}) {
    INFO(text);
    CHECK(to_celsius(parse_quantity(text)) == Approx(38).epsilon(1e-14));
  }
  CHECK(to_celsius(parse_quantity("-273.15 C")) == -273.15);
  CHECK_THROWS_AS(to_celsius(parse_quantity("-273.16 C")), UnitError);
}
