#include "core/lye/recipe.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/lye/lye_cautions.hpp"
#include "core/lye/products.hpp"
#include "fats.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

bool noted(const Recipe& recipe, Severity severity, const std::string& words) {
  return std::any_of(recipe.notes.begin(), recipe.notes.end(), [&](const Note& note) {
    return note.severity == severity && note.text.find(words) != std::string::npos;
  });
}

}  // namespace

TEST_CASE("a plain recipe, weighed", "[recipe]") {
  const auto recipe = weigh(plain_request());
  REQUIRE(recipe.oils.size() == 3);
  CHECK(recipe.oils[1].name == "coconut");
  CHECK(recipe.oils[1].grams == 300);
  CHECK(recipe.oils[1].share_of_oils == Approx(0.30));
  CHECK(recipe.oils_grams == 1000);
  CHECK(recipe.superfat >= 0.05);
  CHECK(recipe.lye_concentration == Approx(0.33).margin(2e-4));
  CHECK(recipe.water_to_alkali == Approx(0.67 / 0.33).epsilon(1e-3));
  CHECK(recipe.total_grams ==
        Approx(1000 + recipe.alkali[0].grams + recipe.water_grams).epsilon(1e-14));
  CHECK(recipe.mass_balance().closes());
  const auto cautions = lye_cautions(recipe);  // said of every lye, in one place
  CHECK(cautions.front().severity == Severity::danger);
  CHECK_THAT(cautions.front().text, Catch::Matchers::Contains("Alkali INTO water"));
}

TEST_CASE("the lye is reckoned from the grams on the scale", "[recipe]") {
  auto request = plain_request();
  request.scales.oils.step = 5;
  request.oils = {olive(602.4), coconut(297.6), castor(100)};
  const auto recipe = weigh(request);
  CHECK(recipe.oils[0].grams == 600);
  CHECK(recipe.oils[1].grams == 300);
  const double need = (600 * 190 + 300 * 256 + 100 * 181) / 1000.0 * 39.997 / 56.106;
  CHECK(recipe.superfat == Approx(1 - recipe.alkali[0].grams / need).epsilon(1e-12));
}

TEST_CASE("triolein and caustic soda make soap and glycerine", "[recipe]") {
  // C57H104O6 885.45 + 3 NaOH 119.99 = 3 sodium oleate 304.45 + glycerol 92.09.
  PotFat triolein = fat("triolein", 885.45, 190, 3 * 56106 / 885.45, 191, 0);
  const AlkaliLine lye{Alkali::sodium_hydroxide, 119.991, 1, 119.991};
  const auto products =
      products_of(std::span(&triolein, 1), std::span(&lye, 1), {.water_grams = 250});
  CHECK(products.soap == Approx(3 * 304.45).margin(0.05));
  CHECK(products.glycerine == Approx(92.09).margin(0.005));
  CHECK(products.water == 250);
  CHECK(products.unsaponified == 0);
  CHECK(products.total() == Approx(885.45 + 119.991 + 250).epsilon(1e-12));
  // Stearic acid 284.48 + NaOH 40.00 = sodium stearate 306.47 + water 18.02.
  PotFat stearic = fat("stearic acid", 284.484, 197, 56106 / 284.484, 198, 0);
  stearic.form = FatForm::free_acid;
  const AlkaliLine less{Alkali::sodium_hydroxide, 39.997, 1, 39.997};
  const auto acid = products_of(std::span(&stearic, 1), std::span(&less, 1), {});
  CHECK(acid.soap == Approx(306.47).margin(0.005));
  CHECK(acid.water == Approx(18.02).margin(0.006));
  CHECK(acid.glycerine == 0);
}

TEST_CASE("every fat that enters the pot counts", "[recipe]") {
  auto request = plain_request();
  const auto before = weigh(request);
  request.other_fats = {fat("colour oil", 24, 186, 189, 194)};
  request.liquids = {whole_milk(100)};
  const auto after = weigh(request);
  const double more = (24 * 0.189 + 100 * 0.035 * 0.228) * 39.997 / 56.106;
  CHECK(after.alkali[0].exact_grams / (1 - 0.05) >= before.alkali[0].exact_grams);
  const double need = (600 * 190 + 300 * 256 + 100 * 181) / 1000.0 * 39.997 / 56.106 + more;
  CHECK(after.superfat == Approx(1 - after.alkali[0].grams / need).epsilon(1e-12));
  REQUIRE(after.forgotten.size() == 5);
  CHECK(after.forgotten[3].line == "colour oil");
  CHECK(after.forgotten[4].line == "fat of whole milk");
  CHECK(after.other_fats[0].share_of_oils == Approx(0.024));
  CHECK(after.oils_grams == 1000);
  CHECK(after.mass_balance().closes());
}

TEST_CASE("water in liquids, syrups and acids takes the place of water", "[recipe]") {
  auto request = plain_request();
  const auto plain = weigh(request);
  request.additives = {sodium_lactate_syrup(30)};
  const auto syrup = weigh(request);
  CHECK(syrup.water_grams == Approx(plain.water_grams - 12).margin(0.11));
  CHECK(syrup.total_water_grams == Approx(plain.total_water_grams).margin(0.11));
  CHECK(syrup.alkali[0].grams == plain.alkali[0].grams);
  request.additives = {sodium_lactate_powder(18)};
  CHECK(weigh(request).water_grams == plain.water_grams);
  request.additives.clear();
  request.acids = {{"vinegar", AcidForm::acetic, 200, 0.05}};
  const auto vinegar = weigh(request);
  CHECK(vinegar.total_water_grams == Approx(vinegar.water_grams + 190));
  CHECK(vinegar.lye_concentration == Approx(0.33).margin(2e-4));
  CHECK(vinegar.mass_balance().closes());
}

TEST_CASE("an acid inside a liquid uses up alkali", "[recipe]") {
  auto request = plain_request();
  Addition buttermilk{"buttermilk", 100};
  buttermilk.water = 0.9;
  buttermilk.sugar = 0.04;
  buttermilk.acid = Acid{"", AcidForm::lactic, 0.008, 1};
  request.liquids = {buttermilk};
  const auto recipe = weigh(request);
  const auto plain = weigh(plain_request());
  CHECK(recipe.alkali[0].exact_grams - plain.alkali[0].exact_grams ==
        Approx(0.8 * 0.4440).epsilon(1e-3));
  CHECK(recipe.forgotten.back().line == "buttermilk");
  CHECK(recipe.mass_balance().closes());
}

TEST_CASE("liquids that bring too much water are said", "[recipe]") {
  auto request = plain_request();
  Addition tea{"tea", 400, Into::lye};
  tea.water = 1;
  request.liquids = {tea};
  const auto recipe = weigh(request);
  CHECK(recipe.water_grams == 0);
  CHECK(noted(recipe, Severity::caution, "more water than was asked for"));
  CHECK(recipe.lye_concentration ==
        Approx(recipe.alkali[0].grams / (recipe.alkali[0].grams + 400)));
  CHECK(recipe.mass_balance().closes());
}

TEST_CASE("salt beyond what lye dissolves is said", "[recipe]") {
  auto request = plain_request();
  Addition salt{"salt", 10, Into::lye};
  salt.salt = 1;
  request.additives = {salt};
  CHECK_FALSE(noted(weigh(request), Severity::caution, "of salt in the lye"));
  request.additives[0].grams = 40;
  CHECK(noted(weigh(request), Severity::caution, "of salt in the lye"));
  request.additives[0].into = Into::trace;
  CHECK_FALSE(noted(weigh(request), Severity::caution, "of salt in the lye"));
}

TEST_CASE("strong, weak and near-crystallising lye is said", "[recipe]") {
  auto request = plain_request();
  request.lye.water.value = 0.42;
  request.lye.lye_celsius = 30;
  CHECK(noted(weigh(request), Severity::caution, "is strong"));
  request.lye.water.value = 0.24;
  CHECK(noted(weigh(request), Severity::caution, "is weak"));
  request.lye.water.value = 0.33;
  CHECK_FALSE(noted(weigh(request), Severity::caution, "crystallising"));
  request.lye.lye_celsius = 10;
  CHECK(noted(weigh(request), Severity::caution, "crystallising"));
  request.lye.lye_celsius = 65;
  CHECK(noted(weigh(request), Severity::caution, "boil over"));
}

TEST_CASE("a pinch the scale cannot show stays, with a word", "[recipe]") {
  auto request = plain_request();
  request.additives = {Addition{"mica", 0.03}};
  const auto recipe = weigh(request);
  CHECK(recipe.additives[0].grams == 0.03);
  CHECK(noted(recipe, Severity::caution, "less than one step of the scale"));
}

TEST_CASE("scaled recipes keep their shares", "[recipe]") {
  auto request = plain_request();
  request.additives = {sodium_lactate_syrup(30)};
  const auto twice = weigh(scaled_to_oils(request, 2000));
  CHECK(twice.oils_grams == 2000);
  CHECK(twice.additives[0].grams == 60);
  const auto once = weigh(request);
  CHECK(twice.alkali[0].exact_grams == Approx(2 * once.alkali[0].exact_grams).epsilon(1e-12));
}

TEST_CASE("sugar and milk come with a word", "[recipe]") {
  auto request = plain_request();
  request.liquids = {whole_milk(100)};
  CHECK(noted(weigh(request), Severity::caution, "Not into hot lye"));
  request.liquids[0].into = Into::lye;
  request.liquids[0].frozen = true;
  CHECK(noted(weigh(request), Severity::danger, "a spoonful at a time"));
  request.liquids[0].sugar = 0.12;
  request.liquids[0].water = 0.80;
  CHECK(noted(weigh(request), Severity::caution, "heat up on its own"));
}
