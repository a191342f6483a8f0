#include <catch2/catch.hpp>

#include "tests/app/sheet/sheet_testing.hpp"

using namespace barwright::tests;
using Json = nlohmann::json;

namespace {

Json rescue(const std::string& what) {
  const Ran ran = run_barwright("rescue " + towpath() + " --json " + what);
  INFO(ran.err);
  REQUIRE(ran.exit_code == 0);
  return Json::parse(ran.out);
}

}  // namespace

TEST_CASE("every fix offered leaves the worst case at or above the floor", "[rescue]") {
  for (const char* slip :
       {"--forgot \"yard mix\"", "--forgot coconut --part body", "--forgot coconut --part topping",
        "--forgot \"shea butter\"", "--forgot castor", "--forgot \"beef tallow\"",
        "--too-much \"NaOH 20 g\"", "--too-much \"NaOH 5 g\"", "--too-little \"NaOH 60 g\"",
        "--too-little \"coconut 100 g\" --part body",
        "--swapped \"castor for coconut\" --part body",
        "--swapped \"coconut for castor\" --part body",
        "--swapped \"coconut and beef tallow\" --part topping"}) {
    INFO(slip);
    const Json answer = rescue(slip);
    CHECK(answer["command"] == "rescue");
    for (const auto& part : answer["parts"]) {
      const std::string verdict = part["verdict"];
      if (verdict == "safe") CHECK(part["now"]["worst_percent"].get<double>() >= 0);
      if (verdict == "mend") CHECK_FALSE(part["fixes"].empty());
      for (const auto& fix : part["fixes"]) {
        CHECK(fix["after"]["worst_percent"].get<double>() >= 0);
        CHECK_FALSE(fix["after"]["lye_heavy"].get<bool>());
      }
    }
  }
}

TEST_CASE("20 g too much sodium hydroxide in the pot is free lye, and is mended", "[rescue]") {
  const Json answer = rescue("--too-much \"NaOH 20 g\"");
  CHECK(answer["status"] == "mend");
  REQUIRE(answer["parts"].size() == 2);
  for (const auto& part : answer["parts"]) {
    CHECK(part["now"]["lye_heavy"] == true);
    // In the pot: weigh out less of it, superfat as planned. In the batter: fat.
    REQUIRE(part["fixes"].size() == 2);
    CHECK(part["fixes"][0]["add"] == "lye");
    CHECK(part["fixes"][0]["after"]["superfat_percent"].get<double>() ==
          Approx(part["planned"]["superfat_percent"].get<double>()).margin(0.15));
    CHECK(part["fixes"][1]["grams"].get<double>() > 0);
  }
}

TEST_CASE("a forgotten oil, put back, is the recipe again", "[rescue]") {
  const Json answer = rescue("--forgot \"shea butter\"");
  CHECK(answer["status"] == "mend");
  const auto& fix = answer["parts"][0]["fixes"][0];
  CHECK(fix["add"] == "shea butter");
  CHECK(fix["after"]["superfat_percent"].get<double>() ==
        Approx(answer["parts"][0]["planned"]["superfat_percent"].get<double>()));
}

TEST_CASE("what takes up no lye is safe to forget; both ways of a swap are shown", "[rescue]") {
  CHECK(rescue("--forgot \"wet stone and mint\"")["status"] == "safe");
  CHECK(rescue("--forgot water")["status"] == "hold");
  const Json swap = rescue("--swapped \"castor for coconut\" --part body");
  CHECK(swap["parts"][0]["now"]["lye_heavy"] == true);
  CHECK(swap["other_way"]["lye_heavy"] == false);
  for (const auto& fix : swap["parts"][0]["fixes"]) {
    CHECK(fix["after"]["superfat_percent"].get<double>() < 6);
  }
  const Ran text =
      run_barwright("rescue " + towpath() + " --swapped \"castor for coconut\" --part body");
  CHECK(text.out.find("NOT SAFE") != std::string::npos);
  CHECK(text.out.find("OR THE OTHER WAY ROUND?") != std::string::npos);
}

TEST_CASE("a slip nobody can place is asked about", "[rescue]") {
  const auto asked = [](const std::string& what) {
    const Ran ran = run_barwright("rescue " + towpath() + " " + what);
    CHECK(ran.exit_code == 2);
    CHECK(ran.out.empty());
    return ran.err;
  };
  CHECK(asked("--forgot coconut").find("say which with --part") != std::string::npos);
  CHECK(asked("--forgot lard").find("is in no part") != std::string::npos);
  CHECK(asked("--too-much NaOH").find("NaOH 20 g") != std::string::npos);
  CHECK(asked("--swapped castor").find("olive for coconut") != std::string::npos);
  CHECK(asked("").find("Say one thing") != std::string::npos);
}
