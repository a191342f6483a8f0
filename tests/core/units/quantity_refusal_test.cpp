// What a maker reads when a quantity cannot be taken: the quantity as it was written, and what to
// do.
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/units/quantity.hpp"

using namespace barwright::core;

namespace {

/// Returns message and remedy of what the call throws.
template <class Call>
std::string said(const Call& call) {
  try {
    call();
  } catch (const UnitError& error) {
    return std::string(error.what()) + "\n" + error.remedy();
  }
  return "taken";
}

std::string unread(std::string_view text) {
  return said([&] { parse_quantity(text); });
}

const std::string kNumberAndUnit =
    "\nWrite a number and its unit, such as 2600 g, 5 %, 1 1/2 lb or 36 h.";

}  // namespace

TEST_CASE("what is no number is said with the words as written", "[quantity]") {
  CHECK(unread("") == "no number in ''" + kNumberAndUnit);
  CHECK(unread("g") == "no number in 'g'" + kNumberAndUnit);
  CHECK(unread("- g") == "no number in '- g'" + kNumberAndUnit);
  CHECK(unread("--5 g") == "no number in '--5 g'" + kNumberAndUnit);
  CHECK(unread("nan g") == "no number in 'nan g'" + kNumberAndUnit);
  CHECK(unread(". g") == "no number in '. g'" + kNumberAndUnit);
  CHECK(unread("1e999 g") == "a number out of range in '1e999 g'" + kNumberAndUnit);
  CHECK(unread("1e300/1e-300 g") == "no finite number in '1e300/1e-300 g'" + kNumberAndUnit);
}

TEST_CASE("a fraction without its lower part is said, in front and in the middle", "[quantity]") {
  for (const std::string text : {"1/0 lb", "1 1/0 lb", "1 3/ lb", "1 3/x lb"}) {
    CHECK(unread(text) == "an unfinished fraction in '" + text + "'" + kNumberAndUnit);
  }
  CHECK(parse_quantity("3/1 lb").value == 3);
  CHECK(parse_quantity("2 3/1 lb").value == 5);
  CHECK(parse_quantity("1/2").value == 0.5);
}

TEST_CASE("numbers side by side are said", "[quantity]") {
  for (const std::string text : {"3 4 lb", "1.5 3/4 lb"}) {
    CHECK(unread(text) == "two numbers side by side in '" + text + "'" + kNumberAndUnit);
  }
  for (const std::string text :
       {"4 oz 3 lb", "3 lb 4 lb", "3 lb 4 C", "3 lb 4 stone", "3 C 4 oz", "1-2 lb"}) {
    CHECK(unread(text) ==
          "several numbers that do not make one weight in '" + text + "'" + kNumberAndUnit);
  }
}

TEST_CASE("a comma in a number is never guessed at", "[quantity]") {
  for (const std::string text : {"1,500 g", "1,5 kg", "3 lb 1,5 oz"}) {
    CHECK(unread(text) ==
          "a comma in the number '" + text +
              "'\nWrite 1500 or 1.5: a full stop for decimals, nothing between thousands.");
  }
}

TEST_CASE("a weight that is none", "[quantity]") {
  const auto weight = [](const Quantity& quantity) { return said([&] { to_grams(quantity); }); };
  const std::string remedy = "\nGive a weight in g, kg, mg, oz or lb.";
  CHECK(weight({5, ""}) == "'5' has no unit; a weight is wanted" + remedy);
  CHECK(weight({5, "stone"}) == "unknown unit 'stone' in '5 stone'" + remedy);
  CHECK(weight({5, "%"}) == "'5 %' is not a weight" + remedy);
  CHECK(weight({-0.1, "g"}) == "'-0.1 g': a weight cannot be below zero" + remedy);
  CHECK(weight({NAN, "g"}) == "not a finite number for a weight" + remedy);
  CHECK(weight({INFINITY, "g"}) == "not a finite number for a weight" + remedy);
  CHECK(weight({5, "cups"}) ==
        "'5 cups' is a volume; a weight is wanted\nWeigh it and give g, kg, oz or lb, or state its "
        "density.");
  CHECK(to_grams({0, "g"}) == 0);
}

TEST_CASE("a volume that is none, and ounces that may be either", "[quantity]") {
  const auto volume = [](const Quantity& quantity) {
    return said([&] { to_millilitres(quantity); });
  };
  const std::string remedy =
      "\nGive a volume in mL, cL, L, fl oz (US), imperial fl oz or gal (US).";
  CHECK(volume({5, "g"}) == "'5 g' is not a volume" + remedy);
  CHECK(volume({5, "lb"}) == "'5 lb' is not a volume" + remedy);
  CHECK(volume({5, "stone"}) == "unknown unit 'stone' in '5 stone'" + remedy);
  CHECK(volume({-1, "mL"}) == "'-1 mL': a volume cannot be below zero" + remedy);
  CHECK(volume({8, "oz"}) ==
        "'8 oz': ounces of weight, or fluid ounces?\nWrite fl oz (US, 29.57 mL) or imperial fl oz "
        "(28.41 mL) for a volume.");
  CHECK(to_millilitres({0, "mL"}) == 0);
}

TEST_CASE("a volume becomes a weight by a density that is one", "[quantity]") {
  for (const double density :
       {0.0, -0.9, static_cast<double>(NAN), static_cast<double>(INFINITY)}) {
    INFO(density);
    CHECK(said([&] {
            to_grams({2, "L"}, density);
          }) == "no usable density for '2 L'\nWeigh it, or state its density in g per mL.");
    CHECK(to_grams({2, "kg"}, density) == 2000);  // a weight needs none
  }
  CHECK(said([] {
          to_grams({5, "stone"}, 0.9);
        }) == "unknown unit 'stone' in '5 stone'\nGive a weight in g, kg, mg, oz or lb.");
}

TEST_CASE("lengths, temperatures, shares and times that are none", "[quantity]") {
  CHECK(said([] {
          to_millimetres({-1, "mm"});
        }) == "'-1 mm': a length cannot be below zero\nGive a length in mm, cm, m or in.");
  CHECK(said([] {
          to_celsius({38, ""});
        }) ==
        "'38' has no unit; a temperature is wanted\nGive a temperature in C or F, such as 38 C.");
  CHECK(said([] {
          to_celsius({-300, "C"});
        }) == "'-300 C' is below absolute zero\nGive a temperature in C or F, such as 38 C.");
  CHECK(said([] {
          to_fraction({0.05, ""});
        }) ==
        "'0.05' has no unit; a percentage is wanted\nWrite the percent sign, such as 5 %, or ppm.");
  CHECK(said([] {
          to_hours({-1, "h"});
        }) == "'-1 h': a time cannot be below zero\nGive a time in min, h, days or weeks.");
  CHECK(to_millimetres({0, "mm"}) == 0);
  CHECK(to_hours({0, "h"}) == 0);
  CHECK(to_fraction({-5, "%"}) == Approx(-0.05));  // a share may be below zero: its reader judges
}
