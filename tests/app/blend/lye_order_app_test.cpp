// What every command says of the lye pot: order of work, strength, cautions.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace barwright::tests;
using Catch::Matchers::Contains;

TEST_CASE("a recipe with other liquids is told in the order of work, on screen and in JSON") {
  const std::string folder = fresh_folder("lye-order");
  spill(folder + "/bar.yaml",
        "name: tea bar\nblend: {olive: 60 %, coconut: 40 %}\noils: 1000 g\nlye:\n  superfat: 5 %\n"
        "  concentration: 33 %\n  liquids: [{tea: 100 g in all}]\n"
        "  acids: [{vinegar 5 %: 50 g in all}]\n"
        "  into-lye: [{salt: 4 g in all}, {sodium lactate syrup 60 %: 20 g in all}]\n");
  const Ran text = run("barwright weigh bar.yaml", folder);
  INFO(text.err);
  REQUIRE(text.exit_code == 0);
  std::size_t at = text.out.find("THE LYE");
  for (const char* line : {"\n  water ", "\n  vinegar", "\n  tea ", "\n  salt ",
                           "\n  sodium hydroxide", "\n  sodium lactate syrup"}) {
    const std::size_t next = text.out.find(line, at);
    INFO(line << text.out);
    REQUIRE(next != std::string::npos);
    at = next;
  }
  CHECK_THAT(text.out, !Contains("into the lye\n"));
  CHECK_THAT(text.out, Contains("No glass, no aluminium") && Contains("Eyes: rinse at once"));
  const auto json = nlohmann::json::parse(run("barwright weigh bar.yaml --json", folder).out);
  const auto& recipe = json["recipe"];
  CHECK(recipe["lye_pot_order"][0]["name"] == "water");
  CHECK(recipe["lye_pot_order"].back()["name"] == "sodium lactate syrup");
  CHECK(recipe["lye_concentration_as_made_percent"] > recipe["lye_concentration_percent"]);
  CHECK(recipe["cautions"][0]["severity"] == "danger");
}
