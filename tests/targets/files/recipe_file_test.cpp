#include "targets/files/recipe_file.hpp"

#include <catch2/catch.hpp>

#include "tests/targets/brief/brief_testing.hpp"

using namespace barwright;
using namespace barwright::targets;

namespace {
RecipeFile from(const std::string& text) {
  return read_recipe_text(text, "r.yaml", "", testing::brief_library());
}
}  // namespace

TEST_CASE("a recipe file", "[recipe]") {
  const RecipeFile recipe =
      read_recipe(testing::fixture("recipes/market-bar.yaml"), testing::brief_library());
  CHECK(recipe.name == "market bar as sold");
  CHECK(*recipe.lye.superfat == Approx(0.05));
  CHECK(*recipe.lye.concentration == Approx(0.33));
  CHECK(*recipe.make->oils_grams == 1800);
  CHECK(recipe.blend.grams == 0);
}

TEST_CASE("a blend by weight has the shares its weights give", "[recipe]") {
  const RecipeFile recipe = from("blend: {olive: 600 g, coconut: 0.2 kg}\n");
  CHECK(recipe.blend.grams == Approx(800));
  CHECK(recipe.blend.oils[0].share == Approx(0.75).epsilon(1e-12));
  CHECK(recipe.blend.oils[1].grams == Approx(200));
  CHECK_FALSE(recipe.make);
}

TEST_CASE("one oil may take the rest", "[recipe]") {
  const RecipeFile recipe = from("blend: {olive: rest, coconut: 27.5 %, castor: 5 %}\n");
  CHECK(recipe.blend.oils[0].share == Approx(0.675).epsilon(1e-12));
}

TEST_CASE("thirds must be written out to 100 %", "[recipe]") {
  CHECK(testing::said([] {
          from("blend: {olive: 33.3 %, coconut: 33.3 %, castor: 33.3 %}\n");
        }).find("the shares add to 99.9 %, 0.1 % short of 100 %") != std::string::npos);
  CHECK(from("blend: {olive: 33.4 %, coconut: 33.3 %, castor: 33.3 %}\n").blend.oils.size() == 3);
}
