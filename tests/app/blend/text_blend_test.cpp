#include "solver/app/blend/text_blend.hpp"

#include <catch2/catch.hpp>

using namespace barwright;
using Catch::Matchers::Contains;

TEST_CASE("text of a blend: lye that is left over never reads 0 %") {
  core::Recipe recipe;
  for (const double superfat : {-0.42, -0.004, -0.00003}) {
    core::FatLine fat;
    fat.name = "oil";
    fat.grams = 100;
    recipe.oils.push_back(fat);
    core::Forgotten one;
    one.superfat = superfat;
    one.lye_heavy = true;
    recipe.forgotten.push_back(one);
  }
  app::Screen screen(false);
  app::show_recipe(screen, recipe, core::Scales{});
  CHECK_THAT(screen.text(), Contains(" -42 % LYE LEFT OVER"));
  CHECK_THAT(screen.text(), Contains(" -0.4 % LYE LEFT OVER"));
  CHECK_THAT(screen.text(), Contains(" -0.003 % LYE LEFT OVER"));
}
