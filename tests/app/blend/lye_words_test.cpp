#include <catch2/catch.hpp>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "running.hpp"

// What the program says and refuses of waxes, potash, coarse scales and settings without effect.

using namespace barwright;
using namespace barwright::tests;
using Catch::Contains;

namespace {

Ran weigh(const std::string& recipe, const std::string& more = {}) {
  const std::string folder = fresh_folder("lye-words");
  spill(folder + "/bar.yaml", recipe);
  return run("barwright weigh bar.yaml" + more, folder);
}

Ran sheet(const std::string& batch) {
  const std::string folder = fresh_folder("lye-words");
  spill(folder + "/batch.yaml", batch);
  return run("barwright sheet batch.yaml", folder);
}

const std::string kFine = "oils: 1000 g\nscale: {oils: 1 g, lye: 0.1 g}\n";

std::string batch(const std::string& lye, const std::string& part) {
  return "batch: two\nmake: {oils: 1000 g}\nlye-pot: each part\nscale: {oils: 1 g, lye: 0.1 g}\n" +
         lye + "parts:\n  body:\n    blend: {olive: 60 %, coconut: 30 %, castor: 10 %}\n" + part;
}

}  // namespace

TEST_CASE("a forgotten line is told at its worst", "[lye-words]") {
  const std::string recipe = "blend: {olive: 65 %, coconut: 31 %, castor: 4 %}\n" + kFine;
  const Ran said = weigh(recipe);
  CHECK(said.exit_code == 0);
  CHECK_THAT(said.out, Contains(" at worst: do not use"));
  const auto json = nlohmann::json::parse(weigh(recipe, " --json").out);
  const auto& castor = json["recipe"]["if_forgotten"][2];
  CHECK(castor["superfat_percent"].get<double>() > 0);
  CHECK(castor["at_worst_percent"].get<double>() < 0);
  CHECK(castor["lye_heavy"] == true);
}

TEST_CASE("wax alone is refused as soap", "[lye-words]") {
  for (const char* wax : {"jojoba", "beeswax", "lanolin", "candelilla wax"}) {
    INFO(wax);
    const Ran ran = weigh(std::string("blend: {") + wax + ": 100 %}\n" + kFine);
    CHECK(ran.exit_code == 3);
    CHECK_THAT(ran.err, Contains("100.0 % of the fat") && Contains("at most 10 %"));
  }
  const Ran little = weigh("blend: {olive: 67 %, coconut: 30 %, beeswax: 3 %}\n" + kFine);
  CHECK(little.exit_code == 0);
  CHECK_THAT(little.out, Contains("Wax saponifies slowly and in part (beeswax)"));
}

TEST_CASE("weights are shown as a scale of odd steps shows them", "[lye-words]") {
  const Ran ran = weigh(
      "blend: {olive: 70 %, coconut: 30 %}\noils: 2000 g\nscale: {oils: 2.5 g, lye: 1.5 g}\n");
  CHECK(ran.exit_code == 0);
  CHECK_THAT(ran.out, Contains("1400.0 g") && Contains(".5 g"));
  const auto json = nlohmann::json::parse(
      weigh("blend: {olive: 70 %, coconut: 30 %}\noils: 2000 g\nscale: {oils: 2.5 g, lye: 1.5 g}\n",
            " --json")
          .out);
  const double grams = json["recipe"]["lye"][0]["grams"].get<double>();
  char shown[32];
  std::snprintf(shown, sizeof shown, "%.1f g", grams);
  CHECK_THAT(ran.out, Contains(shown));
}

TEST_CASE("a strength of an alkali that no part uses is an error at its line", "[lye-words]") {
  const Ran own = sheet(batch("lye: {concentration: 33 %}\n", "    strength: {KOH: 90 %}\n"));
  CHECK(own.exit_code == 3);
  CHECK_THAT(own.err, Contains("batch.yaml:9") && Contains("potassium hydroxide bears on nothing"));
  const Ran all = sheet(batch("lye: {strength: {KOH: 90 %}}\n", ""));
  CHECK(all.exit_code == 3);
  CHECK_THAT(all.err, Contains("batch.yaml:5") && Contains("no part's lye is dosed by it"));
  // In the batch's block for a part that is made with it: taken.
  CHECK(sheet(batch("lye: {strength: {KOH: 90 %}}\n", "    alkali: KOH\n")).exit_code == 0);
  const Ran twice = sheet(batch("lye: {superfat: 5 %}\n", "    superfat: 6 %\n"));
  CHECK(twice.exit_code == 3);
  CHECK_THAT(twice.err, Contains("batch.yaml:5") && Contains("'superfat' of the batch"));
}

TEST_CASE("'raise: no' is kept or refused, never passed over", "[lye-words]") {
  const std::string blend = "blend: {shea butter: 60 %, coconut: 40 %}\n";
  const Ran raised = weigh(blend + "lye: {superfat: 5 %}\n" + kFine);
  CHECK(raised.exit_code == 0);
  CHECK_THAT(raised.out, Contains("Superfat raised from 5.0 %"));
  const Ran refused = weigh(blend + "lye: {superfat: {aim: 5 %, raise: no}}\n" + kFine);
  CHECK(refused.exit_code == 3);
  CHECK_THAT(refused.err, Contains("raise: no") && Contains("cannot be insisted on"));
}
