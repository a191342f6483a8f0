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

TEST_CASE("an LP file never costs the answer, and says what an LP file cannot hold") {
  const std::string folder = fresh_folder("lp-goals");
  REQUIRE(run("barwright new yard", folder).exit_code == 0);
  const std::string firmer = slurp(folder + "/yard/firmer-bar.yaml");
  const auto best = firmer.find("best:"), rest = firmer.find("\n\nlimits:");
  int number = 0;
  for (const auto& [goal, left_out] :
       {std::pair{"best: nearest in feel", "the goal 'nearest in feel'"},
        {"best: {nearest: {hardness: 60, lather: 30}}", "the goal 'nearest in hardness, lather'"},
        {"best: most hardness\nsureness: likely", "the goal 'most hardness, likely 95 %'"},
        {"best: fewest oils", ""},
        {"best: most keeping", ""}}) {
    CAPTURE(goal);
    spill(folder + "/yard/brief.yaml", firmer.substr(0, best) + goal + firmer.substr(rest));
    const std::string lp = folder + "/" + std::to_string(++number) + ".lp";
    const Ran plain = run("barwright blend yard/brief.yaml", folder);
    const Ran ran = run("barwright blend yard/brief.yaml --lp " + lp, folder);
    CHECK(ran.exit_code == plain.exit_code);
    CHECK(ran.out == plain.out);
    CHECK(ran.out.find("THE BLEND") != std::string::npos);
    const std::string text = slurp(lp);
    CHECK(text.find("\nEnd\n") != std::string::npos);
    const bool whole = left_out == std::string();
    CHECK((text.find("Not linear, so not in this file") == std::string::npos) == whole);
    CHECK((ran.err.find("--lp: not linear") == std::string::npos) == whole);
    CHECK(text.find(left_out) != std::string::npos);
    CHECK(ran.err.find(left_out) != std::string::npos);
  }
}

TEST_CASE("a file that cannot be written is told before anything is searched") {
  const std::string folder = fresh_folder("no-folder");
  spill(folder + "/there", "mine");
  for (const char* command :
       {"blend examples/firmer-bar.yaml --lp ", "blend examples/firmer-bar.yaml --save ",
        "swap examples/butter-out.yaml --save ", "swap examples/butter-out.yaml --page ",
        "explore examples/spring-line.yaml --page "}) {
    for (const char* file : {"/none/here", "/there"}) {
      CAPTURE(command, file);
      const Ran ran = run(std::string("barwright ") + command + folder + file);
      CHECK(ran.exit_code == 2);
      CHECK(ran.out.empty());
      CHECK(ran.err.find(folder + file) != std::string::npos);
    }
  }
  CHECK(slurp(folder + "/there") == "mine");
}
