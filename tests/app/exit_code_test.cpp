// One test per exit code: they are an interface (solver/app/exit_code.hpp).
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace barwright::tests;
using Catch::Matchers::Contains;

namespace {

// A brief over the example shelf with one wish. Invented.
std::string brief(const std::string& folder, const std::string& wish,
                  const std::string& rest = {}) {
  const std::string path = folder + "/brief.yaml";
  spill(path, "brief: test\nmake: {oils: 2000 g}\noils-from: shelf\nshelf: " BARWRIGHT_SOURCE_DIR
              "/examples/weighbridge-shelf.yaml\nscale: {lye: 0.1 g}\nwant: {" +
                  wish + "}\n" + rest);
  return path;
}

}  // namespace

TEST_CASE("exit 0: an answer was found and proved") {
  const Ran ran = run("barwright blend examples/firmer-bar.yaml");
  CHECK(ran.exit_code == 0);
  CHECK_THAT(ran.out, Contains("Proved: no blend"));
}

TEST_CASE("exit 2: a command line that makes no sense") {
  for (const char* line :
       {"barwright", "barwright stir", "barwright blend", "barwright blend a b",
        "barwright blend examples/firmer-bar.yaml --answers 0", "barwright oils 'no such oil'",
        "barwright blend examples/firmer-bar.yaml --within soon", "barwright oils --more hardness",
        "barwright oils olive --tag butter"}) {
    CAPTURE(line);
    const Ran ran = run(line);
    CHECK(ran.exit_code == 2);
    CHECK(ran.out.empty());
    CHECK_FALSE(ran.err.empty());
  }
}

TEST_CASE("exit 3: a file that cannot be taken, or is not there") {
  const std::string folder = fresh_folder("exit3");
  const Ran typo = run("barwright blend " + brief(folder, "hardnes: at least 60"));
  CHECK(typo.exit_code == 3);
  CHECK(typo.out.empty());
  CHECK_THAT(typo.err, Contains("brief.yaml:6:8:") && Contains("hardness"));
  CHECK(run("barwright blend no-such-file.yaml").exit_code == 3);
}

TEST_CASE("exit 3: a cost is wished for in another currency than the shelf's") {
  const std::string folder = fresh_folder("exit3-currency");
  const Ran dollars = run("barwright blend " + brief(folder, "oil-cost: at most 9 USD per kg"));
  CHECK(dollars.exit_code == 3);
  CHECK(dollars.out.empty());
  CHECK_THAT(dollars.err, Contains("brief.yaml:6:") && Contains("priced in EUR") &&
                              Contains("no rate of exchange"));
  CHECK(run("barwright blend " + brief(folder, "oil-cost: at most 9 EUR per kg")).exit_code == 0);
}

TEST_CASE("exit 3: a recipe that is not safe is refused with reason and remedy") {
  const std::string folder = fresh_folder("refused");
  spill(folder + "/bar.yaml",
        "name: lye heavy\nblend: {olive: 100 %}\nsuperfat: -2 %\noils: 1000 g\n");
  const Ran heavy = run("barwright weigh " + folder + "/bar.yaml");
  CHECK(heavy.exit_code == 3);
  CHECK(heavy.out.empty());
  spill(folder + "/coarse.yaml",
        "name: coarse\nblend: {olive: 100 %}\nsuperfat: 5 %\noils: 200 g\nscale: {lye: 1 g}\n");
  const Ran coarse = run("barwright weigh " + folder + "/coarse.yaml");
  CHECK(coarse.exit_code == 3);
  CHECK_THAT(coarse.err, Contains("Refused:") && Contains("scale"));
}

TEST_CASE("exit 4: proved that no blend fits") {
  const std::string folder = fresh_folder("exit4");
  const Ran ran = run("barwright blend " + brief(folder, "hardness: at least 95"));
  CHECK(ran.exit_code == 4);
  CHECK_THAT(ran.out, Contains("No blend fits") && Contains("hardness: at least 95") &&
                          Contains("brief.yaml:6"));
  const Ran json = run("barwright blend " + brief(folder, "hardness: at least 95") + " --json");
  const auto object = nlohmann::json::parse(json.out);
  CHECK(object["status"] == "infeasible");
  CHECK(object["conflict"]["proved"] == true);
  CHECK_FALSE(object["fixes"].empty());
  CHECK_FALSE(object["reach"].empty());
}

TEST_CASE("exit 5: stopped before a proof, and never a word more than was proved") {
  // So short that not even the first node is finished.
  const Ran ran = run("barwright blend examples/firmer-bar.yaml --within 0.000001ms");
  CHECK(ran.exit_code == 5);
  CHECK_THAT(ran.out, !Contains("Proved") && !Contains("optimal"));
}

TEST_CASE("exit 70 is kept for our own faults: no input of a maker's reaches it") {
  const std::string folder = fresh_folder("exit70");
  for (const char* text : {"", "just words", "[1, 2]", "brief: {", "\xff\xfe", "make: {bars: .nan}",
                           "brief: x\nwant: []\n", "a: &x [*x]\n"}) {
    spill(folder + "/brief.yaml", text);
    CAPTURE(text);
    const Ran ran = run("barwright blend " + folder + "/brief.yaml");
    CHECK(ran.exit_code == 3);
    CHECK_FALSE(ran.err.empty());
  }
}

TEST_CASE("with --json an error is one JSON object on stdout too") {
  const Ran ran = run("barwright blend no-such-file.yaml --json");
  CHECK(ran.exit_code == 3);
  const auto object = nlohmann::json::parse(ran.out);
  CHECK(object["schema"] == 1);
  CHECK(object["exit_code"] == 3);
  CHECK(object["status"] == "bad-input");
}
