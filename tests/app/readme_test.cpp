// Every `console` block of the README is run as it stands, one shell per block, from the source
// tree: what follows a line "$ command" must be what the command prints. "..." alone on a line
// stands for lines left out.
#include <catch2/catch.hpp>
#include <sstream>
#include <vector>

#include "running.hpp"

using namespace barwright::tests;

namespace {

struct Block {
  int line = 0;
  std::string command;
  std::vector<std::string> expected;
};

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::vector<Block> blocks(const std::string& path) {
  std::vector<Block> found;
  bool inside = false;
  int number = 0;
  for (const auto& line : lines_of(slurp(path))) {
    ++number;
    if (line.rfind("```", 0) == 0) {
      inside = line == "```console";
    } else if (inside && line.rfind("$ ", 0) == 0) {
      found.push_back({number, line.substr(2), {}});
    } else if (inside && !found.empty()) {
      found.back().expected.push_back(line);
    }
  }
  return found;
}

// Whether `expected`, with "..." for any lines, is `printed`.
bool matches(const std::vector<std::string>& expected, std::size_t e,
             const std::vector<std::string>& printed, std::size_t p) {
  if (e == expected.size()) return p == printed.size();
  if (expected[e] == "...") {
    for (std::size_t skip = p; skip <= printed.size(); ++skip) {
      if (matches(expected, e + 1, printed, skip)) return true;
    }
    return false;
  }
  return p < printed.size() && expected[e] == printed[p] &&
         matches(expected, e + 1, printed, p + 1);
}

}  // namespace

TEST_CASE("the README's commands print what the README shows") {
  const auto all = blocks(BARWRIGHT_SOURCE_DIR "/README.md");
  REQUIRE(all.size() >= 3);
  for (const auto& block : all) {
    if (block.command.rfind("sh ", 0) == 0) continue;  // the scripts that build this very program
    INFO("README.md:" << block.line << ": " << block.command);
    const Ran ran = run(block.command);
    INFO(ran.out << ran.err);
    CHECK(matches(block.expected, 0, lines_of(ran.out + ran.err), 0));
  }
}
