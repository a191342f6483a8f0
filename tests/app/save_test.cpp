#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace barwright::tests;
using nlohmann::json;

TEST_CASE("a saved recipe weighs out to the gram as the blend it came from") {
  const std::string folder = fresh_folder("save");
  const Ran found =
      run("barwright blend examples/firmer-bar.yaml --json --save " + folder + "/bar.yaml");
  REQUIRE(found.exit_code == 0);
  const Ran weighed = run("barwright weigh bar.yaml --json", folder);
  REQUIRE(weighed.exit_code == 0);
  const json before = json::parse(found.out)["recipe"];
  const json after = json::parse(weighed.out)["recipe"];
  for (const char* part : {"oils", "lye", "water_grams", "superfat_percent", "total_grams"}) {
    CAPTURE(part);
    CHECK(before[part] == after[part]);
  }
}

TEST_CASE("a file that is there already is never overwritten") {
  const std::string folder = fresh_folder("keep");
  spill(folder + "/bar.yaml", "mine");
  const Ran ran = run("barwright blend examples/firmer-bar.yaml --save " + folder + "/bar.yaml");
  CHECK(ran.exit_code == 2);
  CHECK(slurp(folder + "/bar.yaml") == "mine");
  spill(folder + "/firmer-bar.yaml", "mine too");
  CHECK(run("barwright new " + folder).exit_code == 2);
  CHECK(slurp(folder + "/firmer-bar.yaml") == "mine too");
}

TEST_CASE("a starter folder works as it stands") {
  const std::string folder = fresh_folder("starter");
  CHECK(run("barwright new workshop", folder).exit_code == 0);
  CHECK(run("barwright blend workshop/firmer-bar.yaml", folder).exit_code == 0);
  CHECK(run("barwright weigh workshop/yard-bar.yaml", folder).exit_code == 0);
}

TEST_CASE("the question can be written for other solvers: --lp") {
  const std::string folder = fresh_folder("lp");
  const Ran ran = run("barwright blend examples/firmer-bar.yaml --lp " + folder + "/bar.lp");
  CHECK(ran.exit_code == 0);
  const std::string text = slurp(folder + "/bar.lp");
  for (const char* section : {"Minimize", "Subject To", "Bounds", "Generals", "Binaries", "End"}) {
    CHECK(text.find(section) != std::string::npos);
  }
}
