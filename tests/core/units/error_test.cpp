#include "core/units/error.hpp"

#include <catch2/catch.hpp>
#include <string>

using namespace barwright::core;

TEST_CASE("an input error points, explains and gains context outward", "[error]") {
  InputError error({"brief.yaml", 3, 5}, "unknown unit 'gm'", "Give a weight in g.",
                   "\t\told: 5 gm");
  error.add_context("in the lye of the brief");
  CHECK(std::string(error.what()) ==
        "brief.yaml:3:5: unknown unit 'gm'\n  \t\told: 5 gm\n  \t\t  ^\n  Give a weight in g.\n"
        "  in the lye of the brief");
}

TEST_CASE("an input error without a place is still whole", "[error]") {
  const InputError error({}, "no such file", "Check the name.");
  CHECK(std::string(error.what()) == "no such file\n  Check the name.");
}

TEST_CASE("a refusal keeps reason and remedy apart", "[error]") {
  const Refusal refusal("Too hot.", "Let it cool.");
  CHECK(refusal.reason() == "Too hot.");
  CHECK(refusal.remedy() == "Let it cool.");
  CHECK(std::string(refusal.what()) == "Too hot. Let it cool.");
}
