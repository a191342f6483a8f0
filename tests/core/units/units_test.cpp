// Every unit a maker may write, against its definition. Sources: avoirdupois pound 453.59237 g and
// its sixteenth, inch 25.4 mm, US gallon 231 cubic inches (NIST SP 811, appendix B.8); imperial
// gallon 4.54609 L (UK Weights and Measures Act 1985, schedule 1); cup, tablespoon and teaspoon as
// 8, 1/2 and 1/6 US fluid ounce (NIST Handbook 44, appendix C).
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "core/units/quantity.hpp"

using namespace barwright::core;

namespace {

struct Defined {
  std::vector<const char*> words;
  double factor;
};

const double kInch = 25.4;
const double kUsGallon = 231 * kInch * kInch * kInch / 1000;  // mL
const double kImperialGallon = 4546.09;                       // mL

}  // namespace

TEST_CASE("every word for a weight stands for its definition", "[quantity]") {
  const std::vector<Defined> units = {{{"g", "gram", "grams", "gramme", "grammes"}, 1},
                                      {{"kg", "kilo", "kilos", "kilogram", "kilograms"}, 1000},
                                      {{"mg"}, 0.001},
                                      {{"oz", "ounce", "ounces", "oz."}, 453.59237 / 16},
                                      {{"lb", "lbs", "pound", "pounds", "LB"}, 453.59237}};
  for (const auto& unit : units) {
    for (const char* word : unit.words) {
      INFO(word);
      CHECK(to_grams(parse_quantity(std::string("3 ") + word)) ==
            Approx(3 * unit.factor).epsilon(1e-12));
    }
  }
}

TEST_CASE("every word for a volume stands for its definition", "[quantity]") {
  const std::vector<Defined> units = {
      {{"ml", "mL", "millilitre", "millilitres", "milliliter", "milliliters"}, 1},
      {{"cl", "cL"}, 10},
      {{"l", "L", "litre", "litres", "liter", "liters"}, 1000},
      {{"fl oz", "us fl oz", "fluid ounce", "fluid ounces", "fl. oz."}, kUsGallon / 128},
      {{"imp fl oz", "imperial fl oz"}, kImperialGallon / 160},
      {{"gal", "us gal", "gallon", "gallons"}, kUsGallon},
      {{"imp gal", "imperial gal"}, kImperialGallon},
      {{"cup", "cups"}, kUsGallon / 16},
      {{"tbsp", "tablespoon", "tablespoons"}, kUsGallon / 256},
      {{"tsp", "teaspoon", "teaspoons"}, kUsGallon / 768}};
  for (const auto& unit : units) {
    for (const char* word : unit.words) {
      INFO(word);
      CHECK(to_millilitres(parse_quantity(std::string("3 ") + word)) ==
            Approx(3 * unit.factor).epsilon(1e-12));
    }
  }
}

TEST_CASE("every word for a length, a share or a time stands for its definition", "[quantity]") {
  for (const auto& [text, millimetres] : {std::pair{"3 mm", 3.0},
                                          {"3 cm", 30.0},
                                          {"3 m", 3000.0},
                                          {"3 in", 76.2},
                                          {"3 inch", 76.2},
                                          {"3 inches", 76.2}}) {
    INFO(text);
    CHECK(to_millimetres(parse_quantity(text)) == Approx(millimetres).epsilon(1e-12));
  }
  for (const auto& [text, fraction] :
       {std::pair{"3 %", 0.03}, {"3 percent", 0.03}, {"3 per cent", 0.03}, {"3 ppm", 3e-6}}) {
    INFO(text);
    CHECK(to_fraction(parse_quantity(text)) == Approx(fraction).epsilon(1e-12));
  }
  for (const auto& [text, hours] : {std::pair{"30 min", 0.5},
                                    {"30 minute", 0.5},
                                    {"30 minutes", 0.5},
                                    {"3 h", 3.0},
                                    {"3 hour", 3.0},
                                    {"3 hours", 3.0},
                                    {"3 day", 72.0},
                                    {"3 days", 72.0},
                                    {"3 week", 504.0},
                                    {"3 weeks", 504.0}}) {
    INFO(text);
    CHECK(to_hours(parse_quantity(text)) == Approx(hours).epsilon(1e-12));
  }
}

TEST_CASE("signs, spaces and fraction signs read as written", "[quantity]") {
  const double pound = 453.59237;
  CHECK(parse_quantity("-3 lb 4 oz").value == Approx(-3.25 * pound).epsilon(1e-12));
  CHECK(parse_quantity("+3 lb 4 oz").value == Approx(3.25 * pound).epsilon(1e-12));
  CHECK(parse_quantity("-3 g").value == -3);
  CHECK_THROWS_AS(to_grams(parse_quantity("-3 lb 4 oz")), UnitError);
  CHECK_THROWS_AS(parse_quantity("4 oz 3 lb"), UnitError);  // the larger unit stands first
  CHECK_THROWS_AS(parse_quantity("3 lb 4 lb"), UnitError);
  CHECK(to_grams(parse_quantity("\xC2\xBC lb")) == Approx(pound / 4).epsilon(1e-12));
  CHECK(to_grams(parse_quantity("\xC2\xBE lb")) == Approx(pound * 3 / 4).epsilon(1e-12));
  CHECK(to_grams(parse_quantity("2\xC2\xBD lb")) == Approx(pound * 5 / 2).epsilon(1e-12));
  CHECK(to_grams(parse_quantity("3/4 lb")) == Approx(pound * 3 / 4).epsilon(1e-12));
  CHECK(to_grams(parse_quantity("1 3/4 lb")) == Approx(pound * 7 / 4).epsilon(1e-12));
  CHECK_THROWS_AS(parse_quantity("1.5 3/4 lb"), UnitError);
  CHECK_THROWS_AS(parse_quantity("3/0 lb"), UnitError);
  CHECK_THROWS_AS(to_grams(parse_quantity("3/ lb")), UnitError);
  CHECK(to_grams(parse_quantity("7\xC2\xA0g")) == 7);
  CHECK(to_celsius(parse_quantity("38 \xC2\xB0"
                                  "C")) == 38);
  CHECK(to_celsius(parse_quantity("100.4 deg F")) == Approx(38).epsilon(1e-12));
  CHECK(to_celsius(parse_quantity("-273.15 C")) == Approx(-273.15));
  CHECK_THROWS_AS(to_celsius(parse_quantity("-273.2 C")), UnitError);
  CHECK(to_grams(parse_quantity("2 L"), 0.9) == Approx(1800).epsilon(1e-12));
  CHECK_THROWS_AS(to_grams(parse_quantity("2 L"), 0.0), UnitError);
}
