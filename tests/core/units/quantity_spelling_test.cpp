// Quantities as they are typed: blanks of every kind, capitals, full stops, fractions, and a text
// that is a part of a longer one.
#include <catch2/catch.hpp>
#include <string>
#include <string_view>

#include "core/units/quantity.hpp"

using namespace barwright::core;
using namespace std::string_view_literals;

TEST_CASE("blanks of every kind before, between and after", "[quantity]") {
  for (const auto text : {"2600g"sv, " 2600 g"sv, "2600\tg\t"sv, "2600 g\r"sv, "2600 g\r\n"sv,
                          "\n2600 g  "sv, "\xC2\xA0 2600 g"sv, "2600\xC2\xA0g\xC2\xA0"sv,
                          "\xC2\xA0\xC2\xA0"
                          "2600 g"sv}) {
    INFO(text);
    CHECK(to_grams(parse_quantity(text)) == 2600);
  }
  CHECK(parse_quantity("2600 g \t").unit == "g");
  CHECK(parse_quantity("2600  ").unit.empty());
  CHECK(parse_quantity("5/kg").unit == "/kg");
  // Of a unit's own blanks one counts, however many and of whatever kind.
  for (const char* unit : {"fl oz", "fl  oz", " fl oz ", "\tfl\t oz", "fl\xC2\xA0oz",
                           "fl \xC2\xA0oz", "\xC2\xA0 fl\xC2\xA0\xC2\xA0oz\xC2\xA0"}) {
    INFO(unit);
    CHECK(to_millilitres({1, unit}) == 29.5735295625);
  }
}

TEST_CASE("capitals and full stops", "[quantity]") {
  CHECK(to_millilitres(parse_quantity("1 GAL.")) == Approx(3785.411784).epsilon(1e-14));
  CHECK(to_grams(parse_quantity("16 OZ.")) == Approx(453.59237).epsilon(1e-14));
  CHECK(to_grams(parse_quantity("16 Oz")) == Approx(453.59237).epsilon(1e-14));
  CHECK(to_hours(parse_quantity("1 Day")) == 24);
  CHECK(to_grams(parse_quantity(".5 kg")) == 500);
  CHECK(to_grams(parse_quantity("5. g")) == 5);
}

TEST_CASE("fraction signs with the unit close by", "[quantity]") {
  CHECK(to_grams(parse_quantity("\xC2\xBDkg")) == 500);
  CHECK(to_grams(parse_quantity("2\xC2\xBCkg")) == 2250);
  CHECK(to_grams(parse_quantity("2 3/4kg")) == 2750);
}

TEST_CASE("only the degree sign may stand before C", "[quantity]") {
  CHECK(to_celsius({38,
                    "\xC2\xB0"
                    "C"}) == 38);
  CHECK(to_celsius({38,
                    "\xC2\xBA"
                    "C"}) == 38);
  CHECK_THROWS_AS(to_celsius({38,
                              "\xC3\xB0"
                              "C"}),
                  UnitError);                            // an eth
  CHECK_THROWS_AS(to_celsius({38, "\xC2"}), UnitError);  // half a letter
  CHECK_THROWS_AS(to_celsius({38, "degrees"}), UnitError);
  CHECK(to_celsius({38, "deg. C"}) == 38);
}

TEST_CASE("nothing behind the end of the text is read", "[quantity]") {
  const auto first = [](std::string_view text, std::size_t letters) {
    return parse_quantity(text.substr(0, letters));
  };
  CHECK(first("126", 2).value == 12);
  CHECK(first("7 g8", 3).unit == "g");
  CHECK(first("7 g  ", 4).unit == "g");
  CHECK(first("5,3", 1).value == 5);
  CHECK(first("5/2", 1).value == 5);
  CHECK(first("5/2", 2).unit == "/");
  CHECK(first("5\xC2\xBD", 1).value == 5);
  CHECK(first("7 \xC2\xA0", 3).unit == "\xC2");
  CHECK_THROWS_AS(first("-5 g", 0), UnitError);
  CHECK_THROWS_AS(first("-5 g", 1), UnitError);
  CHECK_THROWS_AS(first("  5 g", 2), UnitError);
}

TEST_CASE("a quantity not yet read is none", "[quantity]") {
  CHECK(Quantity{}.value == 0);
  CHECK(Quantity{}.unit.empty());
}
