#include <catch2/catch.hpp>
#include <string>

#include "core/units/faults.hpp"

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

TEST_CASE("what is wrong with lines that do not hang together is told at once, in their order",
          "[error]") {
  Faults faults;
  CHECK_FALSE(faults.of([] { throw InputError({"b.yaml", 5, 1}, "second", "Mend it."); }));
  CHECK(faults.of([] {}));
  faults.of([] { throw InputError({"b.yaml", 2, 9}, "first", "Mend it."); });
  try {
    faults.done();
    FAIL("nothing was thrown");
  } catch (InputError& error) {
    error.add_context("in the brief");
    CHECK(error.message() == "first");
    REQUIRE(error.also().size() == 1);
    CHECK(error.also()[0].place().line == 5);
    CHECK(std::string(error.what()) ==
          "b.yaml:2:9: first\n  Mend it.\n  in the brief\n\n"
          "b.yaml:5:1: second\n  Mend it.\n  in the brief");
  }
  Faults().done();  // nothing was wrong
}

TEST_CASE("faults of a block join those of the file one by one", "[error]") {
  Faults file;
  file.of([] {
    Faults::each(std::vector<int>{4, 3}, [](int line) {
      throw InputError({"b.yaml", line, 1}, "line " + std::to_string(line), "");
    });
  });
  file.of([] { throw InputError({"b.yaml", 1, 1}, "line 1", ""); });
  try {
    file.done();
    FAIL("nothing was thrown");
  } catch (const InputError& error) {
    CHECK(std::string(error.what()) ==
          "b.yaml:1:1: line 1\n\nb.yaml:3:1: line 3\n\nb.yaml:4:1: line 4");
    CHECK(error.also().size() == 2);
  }
}

TEST_CASE("ten errors are spelled out, of more their number is said", "[error]") {
  for (const int count : {10, 11, 14}) {
    InputError all({"b.yaml", 1, 1}, "line 1", "");
    for (int line = 2; line <= count; ++line)
      all.add(InputError({"b.yaml", line, 1}, "line " + std::to_string(line), ""));
    const std::string said = all.what();
    CHECK((said.find("line 10") != std::string::npos));
    CHECK((said.find("line 11") == std::string::npos));
    CHECK(said.ends_with(count == 10 ? "line 10" : count == 11 ? "and 1 more" : "and 4 more"));
    CHECK(all.also().size() + 1 == static_cast<std::size_t>(count));
  }
}

TEST_CASE("a remedy carries the names that may have been meant", "[error]") {
  const InputError error({}, "unknown oil",
                         "Say: " + Remedy("Did you mean 'olive'?", {"olive"}) + " Or not.");
  CHECK(error.remedy() == "Say: Did you mean 'olive'? Or not.");
  CHECK(error.suggestions() == std::vector<std::string>{"olive"});
}

TEST_CASE("a refusal keeps reason and remedy apart", "[error]") {
  const Refusal refusal("Too hot.", "Let it cool.");
  CHECK(refusal.reason() == "Too hot.");
  CHECK(refusal.remedy() == "Let it cool.");
  CHECK(std::string(refusal.what()) == "Too hot. Let it cool.");
}
