// What a batch has from its workshop's file, and what its clays and liquids ask of the water.
#include "tests/app/sheet/sheet_testing.hpp"

using namespace barwright::tests;
using Catch::Contains;
using nlohmann::json;

namespace {

Ran in_workshop(const std::string& workshop, const std::string& part, const std::string& command) {
  static const std::string folder = fresh_folder("workshop-batch");
  spill(folder + "/workshop.yaml", "workshop: Weighbridge Yard\n" + workshop);
  spill(folder + "/b.yaml",
        "batch: b\nmake: {oils: 1000 g, bars: 10}\nscale: {oils: 1 g, lye: 0.1 g}\nstart: 9:00\n"
        "parts:\n  body:\n    blend: {olive: 70 %, coconut: 30 %}\n" +
            part);
  return run("barwright " + command, folder);
}

}  // namespace

TEST_CASE("a part's own alkali is not held up by the workshop's jar of the other",
          "[sheet][workshop]") {
  const std::string jar = "lye: {alkali: sodium hydroxide, purity: 97 %, concentration: 31 %}\n";
  const Ran own =
      in_workshop(jar, "    superfat: 5 %\n    alkali: potassium hydroxide\n    strength: 90 %\n",
                  "sheet b.yaml");
  INFO(own.err);
  CHECK(own.exit_code == 0);
  CHECK_THAT(flat(own.out), Contains("potassium hydroxide") && Contains("reckoned as 90 % pure"));
  const Ran shop = in_workshop(jar, "    superfat: 5 %\n", "sheet b.yaml");
  CHECK_THAT(flat(shop.out), Contains("reckoned as 97 % pure"));
  // A strength that the batch's own file states for nobody stays an error.
  const Ran idle = in_workshop("",
                               "    superfat: 5 %\n    alkali: potassium hydroxide\n"
                               "    strength: 90 %\nlye: {alkali: sodium hydroxide, purity: "
                               "97 %, concentration: 31 %}\n",
                               "sheet b.yaml");
  CHECK_THAT(flat(idle.err), Contains("bears on nothing"));
}

TEST_CASE("what every part says itself is no fault of the workshop's file", "[sheet][workshop]") {
  const Ran ran = in_workshop(
      "lye: {alkali: sodium hydroxide, superfat: 7 %, concentration: 31 %, oils-at: 40 C}\n",
      "    superfat: 5 %\n    oils-at: 38 C\n    concentration: 33 %\n", "sheet b.yaml");
  INFO(ran.err);
  CHECK(ran.exit_code == 0);
  CHECK_THAT(flat(ran.out), Contains("superfat 5") && Contains("body 38 C"));
}

TEST_CASE("rescue says what it has from the workshop's file", "[sheet][workshop]") {
  const Ran ran = in_workshop("lye: {alkali: sodium hydroxide, concentration: 31 %}\n",
                              "    superfat: 5 %\n", "rescue b.yaml --forgot coconut");
  CHECK_THAT(flat(ran.out), Contains("From workshop.yaml: alkali, water of the lye."));
}

TEST_CASE("a clay's slurry water is weighed, kept back from the lye and counted once",
          "[sheet][clay]") {
  const json with = read_sheet("    superfat: 5 %\n    additives: [{kaolin: 15 g in all}]\n");
  const json without = read_sheet("    superfat: 5 %\n");
  const auto& recipe = with["parts"][0]["recipe"];
  CHECK(with["parts"][0]["additions"][1]["name"] == "slurry water");
  CHECK(with["parts"][0]["additions"][1]["grams"] == 30.0);
  const double lye_water = recipe["water_grams"];
  CHECK(lye_water + 30 == Approx(without["parts"][0]["recipe"]["water_grams"]).margin(0.2));
  CHECK_THAT(shown("    superfat: 5 %\n    additives: [{kaolin: 15 g in all}]\n"),
             Contains("slurry water 30.0 g an hour before: stir the kaolin into it; kept back from "
                      "the lye's water"));
  // Wetted with oil, or soaked with the scent: no water.
  CHECK_THAT(shown("    superfat: 5 %\n    colours: [{name: a, share: 100 %, with: [{rose clay: 5 "
                   "g}]}]\n    wet-colour-with: {oil: olive, each: 6 g, taken-from: blend}\n"),
             !Contains("slurry"));
  // The one lye is plain and made for all: the water comes beside it.
  CHECK_THAT(shown("    superfat: 5 %\n    additives: [{kaolin: 15 g in all}]\n", "lye-pot: one\n"),
             Contains("beside the lye's water, and counted with it"));
}

TEST_CASE("a liquid in place of water has no place in the one lye for all", "[sheet][liquids]") {
  const std::string liquid = "    superfat: 5 %\n    liquids: [{goat milk: 50 % of water}]\n";
  CHECK_THAT(refused_sheet(liquid, "lye-pot: one\n"),
             Contains("b.yaml:11:27:") && Contains("one pot of plain water is made for all") &&
                 Contains("lye-pot: each part"));
  CHECK_THAT(shown("    superfat: 5 %\n    additives: [{goat milk: 50 g in all, when: at trace}]\n",
                   "lye-pot: one\n"),
             Contains("goat milk 50.0 g"));
}
