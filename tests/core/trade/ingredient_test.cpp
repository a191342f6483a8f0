#include "core/trade/ingredient.hpp"

#include <catch2/catch.hpp>

using namespace barwright::core;

TEST_CASE("only whole names are known: nothing is guessed from a part of one") {
  CHECK(find_ingredient_name("Titanium  dioxide")->eu == "CI 77891");
  CHECK(find_ingredient_name("red iron-oxide")->role == Role::colourant);
  CHECK(find_ingredient_name("salt")->us == "Sodium Chloride");
  CHECK_FALSE(find_ingredient_name("celery salt"));
  CHECK_FALSE(find_ingredient_name("iron oxide"));
  CHECK_FALSE(find_ingredient_name(""));
}

TEST_CASE("potassium takes the place of sodium in a soap's name") {
  CHECK(potassium_name("Sodium Olivate") == "Potassium Olivate");
  CHECK(potassium_name("Soap") == "Soap");
}
