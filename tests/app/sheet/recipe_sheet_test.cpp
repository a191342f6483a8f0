// A plain recipe has a bench sheet too, with the very weights that 'weigh' gives.
#include <filesystem>

#include "tests/app/sheet/sheet_testing.hpp"

using namespace barwright::tests;
using Catch::Contains;
using nlohmann::json;

TEST_CASE("the sheet of a recipe weighs what weighing it out does", "[sheet][recipe]") {
  for (const char* file :
       {"examples/yard-bar.yaml", "examples/fireside-bar.yaml", "tests/app/fixtures/citric.yaml",
        "tests/app/fixtures/workshop/plain-bar.yaml"}) {
    INFO(file);
    const Ran weighed = run_barwright(std::string("weigh ") + file + " --json");
    const Ran sheet = run_barwright(std::string("sheet ") + file + " --json");
    INFO(sheet.err);
    REQUIRE(sheet.exit_code == 0);
    const json one = json::parse(weighed.out)["recipe"];
    const json two = json::parse(sheet.out)["parts"][0]["recipe"];
    for (const char* key : {"oils", "lye", "water_grams", "total_grams", "superfat_percent"}) {
      INFO(key);
      CHECK(one[key] == two[key]);
    }
  }
}

TEST_CASE("a recipe's sheet is typed back, steps and all", "[sheet][recipe][written]") {
  const std::string folder = fresh_folder("recipe-sheet");
  std::filesystem::copy(BARWRIGHT_SOURCE_DIR "/examples/weighbridge-shelf.yaml",
                        folder + "/yard-shelf.yaml");
  spill(folder + "/plain.yaml",
        "name: plain\nshelf: yard-shelf.yaml\nblend: {olive: 70 %, coconut: 30 %}\n"
        "superfat: 5 %\nmake: {oils: 1000 g, bars: 14}\n");
  CHECK_THAT(flat(run("barwright sheet plain.yaml --page p.html", folder).out),
             Contains("; sheet 1 ") && Contains("14 bars"));
  CHECK_THAT(slurp(folder + "/p.html"), Contains("data-key=\"bar/olive\""));
  const Ran made =
      run("barwright make plain.yaml --date 2027-03-20 --weighed 'bar/olive=705 g' --step '2=9:30' "
          "--happened 'trace=10:00'",
          folder);
  INFO(made.err);
  CHECK_THAT(flat(made.out), Contains("olive lot MB-2291 705 g (sheet: 700 g)") &&
                                 Contains("by sheet 1,") && Contains("step 2, ") &&
                                 Contains("trace at 10:00"));
  spill(folder + "/no-size.yaml", "blend: {olive: 100 %}\nsuperfat: 5 %\n");
  CHECK_THAT(run("barwright sheet no-size.yaml", folder).err,
             Contains("does not say how much is made") && Contains("oils: 1000 g"));
}
