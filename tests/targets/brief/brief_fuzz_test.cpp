// Whatever stands in a file, a reader takes it or says what is wrong: it never crashes.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>

#include "targets/brief/brief.hpp"
#include "targets/brief/explore_brief.hpp"
#include "targets/brief/swap_brief.hpp"
#include "targets/files/batch_file.hpp"
#include "targets/files/recipe_file.hpp"
#include "tests/targets/brief/brief_testing.hpp"

using namespace barwright;

namespace {

/// Runs every reader; anything but an InputError leaves through the test.
int readers_that_take(const std::string& text) {
  const oils::Library& library = testing::brief_library();
  const std::string folder = testing::fixture("");
  int taken = 0;
  const auto run = [&](auto read) {
    try {
      read(text, "f.yaml", folder, library);
      ++taken;
    } catch (const core::InputError&) {
    }
  };
  run(targets::read_brief_text);
  run(targets::read_recipe_text);
  run(targets::read_swap_brief_text);
  run(targets::read_explore_brief_text);
  run(targets::read_batch_text);
  return taken;
}

std::vector<std::string> texts(const std::string& folder) {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(testing::fixture(folder)))
    if (entry.path().extension() == ".yaml") paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  std::vector<std::string> all;
  for (const auto& path : paths) {
    std::ifstream file(path, std::ios::binary);
    all.emplace_back(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }
  return all;
}

}  // namespace

TEST_CASE("files that once gave trouble, and files made to", "[brief][fuzz]") {
  const auto all = texts("fuzz");
  REQUIRE(all.size() >= 12);
  for (const std::string& text : all) {
    INFO(text);
    CHECK(readers_that_take(text) == 0);
  }
}

TEST_CASE("good files, each taken by its own reader, survive any slip of the pen",
          "[brief][fuzz]") {
  const auto all = texts("");
  REQUIRE(all.size() == 4);
  std::mt19937_64 random(20270213);
  const auto below = [&](std::size_t end) { return static_cast<std::size_t>(random() % end); };
  const std::string letters = " \n:{}[],-%'\"#&*!|>.0159axCE/+\t";
  for (const std::string& text : all) {
    CHECK(readers_that_take(text) == 1);
    for (int round = 0; round < 150; ++round) {
      std::string slip = text;
      for (std::size_t k = 0, count = 1 + below(3); k < count; ++k) {
        const std::size_t at = below(slip.size());
        const std::size_t kind = below(4);
        if (kind == 0)
          slip[at] = letters[below(letters.size())];
        else if (kind == 1)
          slip.insert(at, 1, letters[below(letters.size())]);
        else if (kind == 2)
          slip.erase(at, 1 + below(6));
        else
          slip.insert(at, slip.substr(below(slip.size()), below(30)));
      }
      readers_that_take(slip);
    }
  }
}
