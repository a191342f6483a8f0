// Every class of error, word for word: fixtures/errors.txt.
#include <catch2/catch.hpp>
#include <fstream>

#include "targets/brief/brief.hpp"
#include "targets/brief/explore_brief.hpp"
#include "targets/brief/swap_brief.hpp"
#include "targets/files/batch_file.hpp"
#include "targets/files/recipe_file.hpp"
#include "tests/targets/brief/brief_testing.hpp"

using namespace barwright;

namespace {

struct Case {
  std::string kind, name, text, expected;
};

std::vector<Case> cases() {
  std::vector<Case> found;
  std::ifstream file(testing::fixture("errors.txt"));
  std::string line;
  bool answer = false;
  while (std::getline(file, line)) {
    if (line.rfind("### ", 0) == 0) {
      const std::size_t space = line.find(' ', 4);
      found.push_back({line.substr(4, space - 4), line.substr(space + 1), "", ""});
      answer = false;
    } else if (line == ">>>") {
      answer = true;
    } else if (!found.empty()) {
      (answer ? found.back().expected : found.back().text) += line + "\n";
    }
  }
  return found;
}

void read(const Case& test) {
  const oils::Library& library = testing::brief_library();
  if (test.kind == "brief")
    targets::read_brief_text(test.text, "b.yaml", "", library);
  else if (test.kind == "recipe")
    targets::read_recipe_text(test.text, "b.yaml", "", library);
  else if (test.kind == "swap")
    targets::read_swap_brief_text(test.text, "b.yaml", "", library);
  else if (test.kind == "explore")
    targets::read_explore_brief_text(test.text, "b.yaml", "", library);
  else if (test.kind == "batch")
    targets::read_batch_text(test.text, "b.yaml", "", library);
  else
    FAIL("no reader for " << test.kind);
}

}  // namespace

TEST_CASE("a file that cannot be taken says where, what, and what to write", "[brief][errors]") {
  const auto all = cases();
  REQUIRE(all.size() >= 96);
  for (const Case& test : all) DYNAMIC_SECTION(test.kind << ": " << test.name) {
      CHECK(testing::said([&] { read(test); }) + "\n" == test.expected);
    }
}

TEST_CASE("a recipe's error says which brief asked for it", "[brief][errors]") {
  const std::string folder = testing::fixture("");
  const std::string text =
      "brief: b\noils-from: library\ncompared-with: recipes/broken.yaml\nwant: {lather: no less}\n";
  CHECK(testing::said([&] {
          targets::read_brief_text(text, "b.yaml", folder, testing::brief_library());
        }) == folder +
                  "recipes/broken.yaml:2:22: unknown oil 'cocnut'\n"
                  "  blend: {olive: 70 %, cocnut: 30 %}\n"
                  "                       ^\n"
                  "  " +
                  testing::brief_library().remedy_for("cocnut").text +
                  "\n"
                  "  in blend\n"
                  "  in the recipe that b.yaml:3 compares with");
}
