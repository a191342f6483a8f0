// What is said of additions beside a recipe: sugar, salt, too much water, remarks on figures.
#include <catch2/catch.hpp>
#include <string>

#include "core/lye/recipe.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

/// Returns how many notes of this severity say exactly this.
int times(const Recipe& recipe, Severity severity, const std::string& text) {
  int count = 0;
  for (const auto& note : recipe.notes) {
    if (note.severity == severity && note.text == text) ++count;
  }
  return count;
}

bool says(const Recipe& recipe, const std::string& words) {
  for (const auto& note : recipe.notes) {
    if (note.text.find(words) != std::string::npos) return true;
  }
  return false;
}

Addition sweet(const std::string& name, double grams, double sugar) {
  Addition out{name, grams};
  out.sugar = sugar;
  return out;
}

Recipe with(const Addition& addition) {
  auto request = plain_request();
  request.additives = {addition};
  return weigh(request);
}

const std::string kHeats =
    "This much sugar makes the batter heat up on its own: keep the mould uncovered and cool.";

std::string late(const std::string& name) {
  return "Not into hot lye, where it scorches: " + name + " joins once the lye is in the oils.";
}

}  // namespace

TEST_CASE("sugar beyond a hundredth of the oils heats the batter", "[recipe]") {
  // 1000 g of oils.
  CHECK_FALSE(says(with(sweet("honey", 10, 1)), kHeats));
  CHECK(times(with(sweet("honey", 10.04, 1)), Severity::caution, kHeats) == 0);  // weighed as 10
  auto request = plain_request();
  request.scales.lye.step = 0.01;
  request.additives = {sweet("honey", 10.05, 1)};
  CHECK(times(weigh(request), Severity::caution, kHeats) == 1);
  CHECK_FALSE(says(with(sweet("honey", 12.5, 0.8)), kHeats));
  CHECK(says(with(sweet("honey", 12.6, 0.8)), kHeats));
  // Of all additions together.
  request.liquids = {sweet("syrup", 6, 0.5)};
  request.additives = {sweet("honey", 7.1, 1)};
  CHECK(says(weigh(request), kHeats));
  request.additives[0].grams = 6.9;
  CHECK_FALSE(says(weigh(request), kHeats));
}

TEST_CASE("only what holds sugar, and is there, is said to join late", "[recipe]") {
  CHECK(times(with(sweet("honey", 0.5, 0.8)), Severity::caution, late("honey")) == 1);
  CHECK_FALSE(says(with(sweet("honey", 0, 0.8)), "hot lye"));
  CHECK_FALSE(says(with(Addition{"clay", 10}), "hot lye"));
  CHECK_FALSE(says(with(Addition{"clay", 0}), "clay"));  // nor that the scale cannot show it
}

TEST_CASE("frozen milk is dissolved with care in the lye, and late elsewhere", "[recipe]") {
  auto milk = whole_milk(100);
  milk.frozen = true;
  const std::string care =
      "Dissolve the alkali in the frozen whole milk a spoonful at a time, the bowl standing in "
      "ice: once it is warm its sugar scorches and it can boil over.";
  auto recipe = with(milk);
  CHECK(times(recipe, Severity::caution, late("whole milk")) == 1);
  CHECK_FALSE(says(recipe, "a spoonful at a time"));
  CHECK(recipe.additives[0].frozen);
  milk.into = Into::lye;
  recipe = with(milk);
  CHECK(times(recipe, Severity::danger, care) == 1);
  CHECK_FALSE(says(recipe, "hot lye"));
  // Tea with a trace of sugar may meet the lye, and nothing is said.
  auto tea = sweet("tea", 100, 0.003);
  tea.into = Into::lye;
  tea.water = 0.99;
  recipe = with(tea);
  CHECK_FALSE(says(recipe, "tea"));
}

TEST_CASE("salt is said as soon as the lye dissolves no more of it", "[recipe]") {
  // Lye of 33 %: of 100 g of clear solution 4.3 - 0.3 x (4.3 - 1.8) = 3.55 g are salt (curve of
  // core/solubility.cpp, recalled). So 3.55 / 96.45 of the lye's own weight dissolves.
  const auto plain = weigh(plain_request());
  const double lye = plain.alkali[0].grams + plain.water_grams;
  const double dissolves = (4.3 - 2.5 * (10 * plain.mixed_concentration - 3)) / 100;
  const double most = dissolves / (1 - dissolves) * lye;
  CHECK(most == Approx(0.0355 / 0.9645 * lye).epsilon(1e-3));
  Addition salt{"salt", 0, Into::lye};
  auto request = plain_request();
  request.scales.lye.step = 0.01;
  request.lye.water.value = plain.lye_concentration;
  const auto said = [&](double grams, double share) {
    salt.grams = grams;
    salt.salt = share;
    request.additives = {salt};
    return weigh(request);
  };
  CHECK_FALSE(says(said(most - 0.05, 1), "of salt in the lye"));
  CHECK(says(said(most + 0.05, 1), "of salt in the lye"));
  CHECK_FALSE(says(said((most - 0.05) / 0.8, 0.8), "of salt in the lye"));
  CHECK(says(said((most + 0.05) / 0.8, 0.8), "of salt in the lye"));
  salt.into = Into::cooled_lye;
  CHECK(says(said(most + 0.05, 1), "of salt in the lye"));
  salt.into = Into::oils;
  CHECK_FALSE(says(said(most + 0.05, 1), "of salt in the lye"));
  salt.into = Into::lye;
  CHECK(times(said(40, 1), Severity::caution,
              "Of the 40 g of salt in the lye about 16 g dissolve; the rest makes the bar gritty. "
              "Add it at trace, or less of it.") == 1);
}

TEST_CASE("liquids may bring a step more water than is wanted, not two", "[recipe]") {
  auto request = plain_request();
  request.scales.lye.step = 1;
  request.lye.water = {WaterRule::Kind::ratio, 2};
  const double wanted = 2 * weigh(request).alkali[0].grams;  // whole grams
  const std::string words = "The liquids bring more water than was asked for";
  Addition tea{"tea", 0, Into::lye};
  tea.water = 1;
  const auto bringing = [&](double grams) {
    tea.grams = grams;
    request.liquids = {tea};
    return weigh(request);
  };
  CHECK_FALSE(says(bringing(wanted - 1), words));
  CHECK_FALSE(says(bringing(wanted), words));
  CHECK_FALSE(says(bringing(wanted + 1), words));
  const auto more = bringing(wanted + 2);
  CHECK(says(more, words));
  CHECK(more.water_grams == 0);
  CHECK(more.lye_concentration ==
        Approx(more.alkali[0].grams / (more.alkali[0].grams + wanted + 2)));
}

TEST_CASE("a remark on an oil's figure stands beside the recipe, and no note is empty",
          "[recipe]") {
  auto request = plain_request();
  request.oils[1].remark = "The figure of coconut is a guess.";
  request.acids = {{"citric acid", AcidForm::citric_anhydrous, 10}};
  const auto recipe = weigh(request);
  CHECK(times(recipe, Severity::caution, "The figure of coconut is a guess.") == 1);
  for (const auto& note : recipe.notes) CHECK_FALSE(note.text.empty());
  CHECK_FALSE(recipe.acids[0].frozen);
}

TEST_CASE("what the lye scale cannot show stays as asked, and is said once", "[recipe]") {
  const auto recipe = with(Addition{"mica", 0.03});
  CHECK(recipe.additives[0].grams == 0.03);
  CHECK(times(recipe, Severity::caution,
              "mica, 0.03 g, is less than one step of the scale: weigh it on a finer one.") == 1);
  CHECK_FALSE(says(with(Addition{"mica", 0.5}), "mica"));
  CHECK_FALSE(says(with(Addition{"mica", 0}), "mica"));
}
