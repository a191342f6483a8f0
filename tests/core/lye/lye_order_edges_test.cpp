#include <catch2/catch.hpp>
#include <string>

#include "core/lye/lye_cautions.hpp"
#include "core/lye/lye_order.hpp"
#include "fats.hpp"

// The order of work in odd pots, how one sees that the lye is made, and how hot it is then.

using namespace barwright::core;
using namespace barwright::tests;

namespace {

using Kind = LyeStep::Kind;

Line line(const std::string& name, double grams, double water_share, Into into = Into::lye) {
  return {name, grams, into, false, grams * water_share};
}

Line frozen(const std::string& name, double grams, double water_share, Into into = Into::lye) {
  return {name, grams, into, true, grams * water_share};
}

/// A recipe of a mole of soda in five of water; every line is added by hand.
Recipe pot(double water = 90.075) {
  Recipe recipe;
  recipe.alkali = {{Alkali::sodium_hydroxide, 39.997, 1, 39.997}};
  recipe.water_grams = recipe.pot_water_grams = water;
  return recipe;
}

std::string names(const Recipe& recipe) {
  std::string out;
  for (const auto& step : lye_order(recipe)) out += (out.empty() ? "" : " > ") + step.name;
  return out;
}

/// Returns how the step of this name is done.
std::string how(const Recipe& recipe, const std::string& name) {
  for (const auto& step : lye_order(recipe)) {
    if (step.name == name) return step.how;
  }
  return "no such step";
}

const std::string kFrozenFirst = "stir it into the milk before that is frozen";
const std::string kIntoWater = "dissolve it in the cold water, before the alkali";

}  // namespace

TEST_CASE("salt is not told to dissolve where the same lye keeps less of it", "[lye order]") {
  Recipe recipe = pot();
  recipe.salt_dissolves = 4;
  Line salt = line("salt", 10, 0);
  const auto told = [&](double grams, Into into) {
    salt.into = into;
    salt.salt = grams;
    recipe.additives = {salt};
    return how(recipe, "salt");
  };
  CHECK(told(4, Into::lye) == kIntoWater);
  CHECK(told(4.1, Into::lye) ==
        "of it about 4 g, before the alkali: more does not dissolve; the rest at trace");
  CHECK(told(4, Into::cooled_lye) == "into the made lye, once it is clear and below 45 C");
  CHECK(told(4.1, Into::cooled_lye) ==
        "of it about 4 g, into the made lye, once it is clear and below 45 C: more does not "
        "dissolve; "
        "the rest at trace");
  // Half a gram is salt as well; what is no salt, or goes in at trace, takes none of the room.
  recipe.salt_dissolves = 0.4;
  CHECK(told(0.5, Into::lye) ==
        "of it about 0 g, before the alkali: more does not dissolve; the rest at trace");
  recipe.salt_dissolves = 4;
  CHECK(told(4, Into::lye) == kIntoWater);
  recipe.additives.push_back(line("clay", 5, 0, Into::trace));
  CHECK(how(recipe, "salt") == kIntoWater);
  CHECK(Recipe{}.salt_dissolves == 0);
  CHECK(told(4.1, Into::lye) != kIntoWater);
  // Sugar beside it dissolves as ever.
  recipe.additives.push_back(line("sugar", 20, 0));
  CHECK(how(recipe, "sugar") == kIntoWater);
}

TEST_CASE("every step says how it is done", "[lye order]") {
  Recipe recipe = pot();
  recipe.acids = {line("citric acid", 10, 0)};
  recipe.liquids = {line("tea", 60, 1), frozen("milk", 70, 0.87)};
  recipe.additives = {line("salt", 4, 0), line("lactate", 30, 0.4, Into::cooled_lye)};
  CHECK(names(recipe) == "water > citric acid > tea > salt > milk > sodium hydroxide > lactate");
  CHECK(how(recipe, "water") == "cold, into the lye pot first");
  CHECK(how(recipe, "citric acid") == "before the alkali; poured into made lye it spits");
  CHECK(how(recipe, "tea") == "cold, before the alkali");
  CHECK(how(recipe, "salt") == kIntoWater);
  CHECK(how(recipe, "milk") ==
        "frozen, in small pieces, before the alkali; the pot stands in ice water");
  CHECK(how(recipe, "sodium hydroxide") ==
        "by the spoonful INTO what is in the pot, never the reverse");
  CHECK(how(recipe, "lactate") ==
        "into the made lye, once no grain of alkali is left and below 45 C");
  // Each is weighed as a whole, whatever of it is water.
  recipe.alkali[0].grams = 39.9;  // as the scale shows it
  const double grams[] = {90.075, 10, 60, 4, 70, 39.9, 30};
  const auto order = lye_order(recipe);
  REQUIRE(order.size() == 7);
  for (std::size_t i = 0; i < 7; ++i) {
    INFO(order[i].name);
    CHECK(order[i].grams == grams[i]);
  }
  recipe.liquids.pop_back();
  CHECK(how(recipe, "sodium hydroxide") ==
        "a little at a time INTO what is in the pot, never the reverse");
  CHECK(lye_order_words(lye_order(recipe)) ==
        "water, then citric acid, then tea, then salt, then the alkali into it a little at a time, "
        "never the reverse; once no grain of alkali is left and below 45 C, lactate");
}

TEST_CASE("what is half water is a liquid, what is less is dissolved", "[lye order]") {
  Recipe recipe = pot();
  recipe.liquids = {line("gel", 10, 0.502), line("half", 10, 0.5), line("paste", 10, 0.498)};
  const auto order = lye_order(recipe);
  REQUIRE(order.size() == 5);
  CHECK((order[1].name == "gel" && order[1].kind == Kind::liquid));
  CHECK((order[2].name == "half" && order[2].kind == Kind::liquid));
  CHECK((order[3].name == "paste" && order[3].kind == Kind::dry));
}

TEST_CASE("lines of no weight are no work, half a gram is", "[lye order]") {
  Recipe recipe = pot();
  recipe.acids = {line("no acid", 0, 0), line("acid", 0.5, 0)};
  recipe.liquids = {line("no tea", 0, 1), line("tea", 0.5, 1), frozen("no ice", 0, 1),
                    frozen("ice", 0.5, 1)};
  recipe.additives = {line("no salt", 0, 0), line("salt", 0.5, 0),
                      line("no late", 0, 1, Into::cooled_lye),
                      line("late", 0.5, 1, Into::cooled_lye)};
  CHECK(names(recipe) == "water > acid > tea > salt > ice > sodium hydroxide > late");
  recipe = pot(0.5);
  CHECK(names(recipe) == "water > sodium hydroxide");
}

TEST_CASE("what goes elsewhere is no work at the lye pot", "[lye order]") {
  Recipe recipe = pot();
  recipe.acids = {line("vinegar", 10, 0.95, Into::trace)};
  recipe.liquids = {line("cream", 10, 0.6, Into::trace), frozen("purée", 10, 0.8, Into::trace)};
  recipe.additives = {line("clay", 10, 0, Into::trace)};
  CHECK(names(recipe) == "water > sodium hydroxide");
}

TEST_CASE("dry matter is stirred into what is frozen later only where nothing is liquid",
          "[lye order]") {
  Recipe recipe = pot(0);
  recipe.liquids = {frozen("no milk", 0, 0.87), frozen("oat drink", 5, 0.9, Into::trace),
                    frozen("milk", 100, 0.87), frozen("whey", 100, 0.93)};
  recipe.additives = {line("salt", 4, 0)};
  recipe.acids = {line("citric acid", 10, 0)};
  CHECK(how(recipe, "salt") == kFrozenFirst);
  CHECK(how(recipe, "citric acid") == kFrozenFirst);
  // What is frozen stays last; nothing of it is a liquid for the others.
  CHECK(names(recipe) == "citric acid > salt > milk > whey > sodium hydroxide");
  // A liquid that joins elsewhere, or weighs nothing, helps nobody here.
  recipe.liquids.push_back(line("cream", 50, 0.6, Into::trace));
  recipe.liquids.push_back(line("late tea", 50, 1, Into::cooled_lye));
  recipe.acids.push_back(line("vinegar", 100, 0.95, Into::trace));
  CHECK(how(recipe, "salt") == kFrozenFirst);
  // Half a gram of water, of tea or of vinegar is liquid.
  for (const int which : {0, 1, 2}) {
    INFO(which);
    Recipe wet = recipe;
    if (which == 0) wet.water_grams = 0.5;
    if (which == 1) wet.liquids.push_back(line("tea", 0.5, 1));
    if (which == 2) wet.acids.push_back(line("more vinegar", 0.5, 0.95));
    CHECK(how(wet, "salt") == kIntoWater);
  }
}

TEST_CASE("without plain water the liquids come first, then acids, dry and frozen", "[lye order]") {
  Recipe recipe = pot(0);
  recipe.acids = {line("citric acid", 10, 0)};
  recipe.liquids = {frozen("milk", 100, 0.87), line("tea", 100, 1), line("beer", 100, 0.95)};
  recipe.additives = {line("salt", 4, 0)};
  CHECK(names(recipe) == "tea > beer > citric acid > salt > milk > sodium hydroxide");
  recipe.water_grams = 1;
  CHECK(names(recipe) == "water > citric acid > tea > beer > salt > milk > sodium hydroxide");
}

TEST_CASE("how one sees that lye is made depends on what is in it", "[lye order]") {
  const auto sign = [](const Recipe& recipe) { return lye_made_sign(lye_order(recipe)); };
  Recipe recipe = pot();
  CHECK(sign(recipe) == "clear, no grains");
  CHECK_FALSE(made_in_ice(lye_order(recipe)));
  recipe.acids = {line("citric acid", 10, 0)};
  recipe.additives = {line("lactate", 30, 0.4, Into::cooled_lye)};
  CHECK(sign(recipe) == "clear, no grains");
  recipe.liquids = {line("tea", 60, 1)};
  CHECK(sign(recipe) == "no grain is left on the bottom");
  recipe.liquids = {line("salt", 4, 0)};
  CHECK(sign(recipe) == "no grain is left on the bottom");
  recipe.liquids = {frozen("milk", 100, 0.87)};
  CHECK(sign(recipe) == "no grain of alkali is left; it may thicken");
  CHECK(made_in_ice(lye_order(recipe)));
}

TEST_CASE("made lye is as hot as its heat balance says", "[lye order]") {
  // A mole of soda in five of water gives 37.8 kJ (recalled), over 3.5 J/gK; the water from the tap
  // at 12 C (4.19 J/gK), the soda at the room's 20 C (1.49 J/gK).
  const double soda = 39.997, water = 5 * 18.015;
  const double capacity = 4.19 * water + 1.49 * soda;
  const double rise = 37800 / 3.5 / (soda + water);
  Recipe recipe = pot(water);
  CHECK(made_celsius(recipe) ==
        Approx((4.19 * water * 12 + 1.49 * soda * 20) / capacity + rise).epsilon(1e-9));
  CHECK(made_celsius(recipe, 5) ==
        Approx((4.19 * water * 12 + 1.49 * soda * 5) / capacity + rise).epsilon(1e-9));
  // 40 g of the water frozen into the lye, 334 J/g; what is frozen or not for elsewhere is none.
  recipe.liquids = {frozen("milk", 32, 1), frozen("purée", 20, 1, Into::trace), line("tea", 9, 1)};
  recipe.additives = {frozen("cubes", 16, 0.5)};
  CHECK(made_celsius(recipe) ==
        Approx((4.19 * (water - 40) * 12 + 1.49 * soda * 20 - 334 * 40) / capacity + rise)
            .epsilon(1e-9));
  // Half of it potash, the soda first: the heat of soda at the dilution of both.
  recipe = pot(water);
  recipe.alkali = {{Alkali::sodium_hydroxide, 20, 0.98, 20},
                   {Alkali::potassium_hydroxide, 30, 0.90, 30}};
  const double pure = 19.6 + 27, total = 50 + water;
  const double moles = pure / 39.997;
  const double per_mole = (total - pure) / 18.015 / moles;  // 4.4 mol of water
  REQUIRE((per_mole > 4 && per_mole < 5));
  const double joules = moles * 1000 * (34.4 + (37.8 - 34.4) * (per_mole - 4));
  CHECK(made_celsius(recipe) ==
        Approx((4.19 * water * 12 + 1.49 * 50 * 20) / (4.19 * water + 1.49 * 50) +
               joules / 3.5 / total)
            .epsilon(1e-6));
}

TEST_CASE("without alkali the pot is as warm as the room, with little of it nearly as the water",
          "[lye order]") {
  Recipe recipe = pot();
  recipe.alkali = {{Alkali::sodium_hydroxide, 0, 1, 0}};
  CHECK(made_celsius(recipe) == 20);
  recipe.alkali.clear();
  CHECK(made_celsius(recipe, 17) == 17);
  recipe.alkali = {{Alkali::sodium_hydroxide, 0.5, 1, 0.5}};
  CHECK(made_celsius(recipe) == Approx(13.8).margin(0.1));
}

TEST_CASE("the cautions of every lye, in full", "[lye cautions]") {
  std::string out;
  for (const auto& note : lye_cautions(pot())) {
    out += std::string(word(note.severity)) + ": " + note.text + "\n";
  }
  CHECK(
      out ==
      "danger: Alkali INTO water, never water onto alkali: it spits and boils over.\n"
      "danger: No glass, no aluminium: glass can break hot, aluminium makes hydrogen. Stainless "
      "steel, or plastic marked PP or HDPE.\n"
      "danger: Lye fumes are not for breathing: fan, open window, face away.\n"
      "danger: Goggles, gloves, sleeves. No children, no animals, no food at the bench; a "
      "phone or tablet only in a clear bag, pressed with clean hands.\n"
      "danger: This lye heats itself to about 96 C, near boiling: it can boil up.\n"
      "caution: Skin: clothes off, rinse with plenty of running water, at least 15 minutes; then "
      "to a doctor with any burn.\n"
      "caution: Eyes: rinse at once with plenty of water, lids open, at least 15 minutes; then to "
      "a doctor, rinsing on the way.\n"
      "caution: Swallowed: rinse the mouth, sips of water, do NOT make them vomit; call for help "
      "at once.\n"
      "caution: No vinegar on skin or eyes. The supplier's safety data sheet and local rules come "
      "first.\n");
}
