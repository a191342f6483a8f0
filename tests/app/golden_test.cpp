// Every file of tests/app/golden is a command line with all it prints. To record what the program
// prints now: BARWRIGHT_RECORD=1 tests_app "golden*"; then read the difference before you commit
// it.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <vector>

#include "running.hpp"

using namespace barwright::tests;
namespace fs = std::filesystem;

namespace {

const std::string kOut = "--- stdout\n";
const std::string kErr = "--- stderr\n";

std::vector<std::string> golden_files() {
  std::vector<std::string> files;
  for (const auto& entry : fs::directory_iterator(BARWRIGHT_SOURCE_DIR "/tests/app/golden")) {
    if (entry.path().extension() == ".golden") files.push_back(entry.path().string());
  }
  std::sort(files.begin(), files.end());
  return files;
}

std::string session_text(const std::string& command) {
  const Ran ran = run(command);
  return "$ " + command + "\nexit " + std::to_string(ran.exit_code) + "\n" + kOut + ran.out + kErr +
         ran.err;
}

}  // namespace

TEST_CASE("golden command lines print what they printed") {
  const auto files = golden_files();
  REQUIRE(files.size() >= 20);
  for (const auto& file : files) {
    DYNAMIC_SECTION(fs::path(file).filename().string()) {
      const std::string expected = slurp(file);
      const std::size_t end = expected.find('\n');
      REQUIRE(expected.substr(0, 2) == "$ ");
      const std::string now = session_text(expected.substr(2, end - 2));
      if (std::getenv("BARWRIGHT_RECORD") != nullptr) spill(file, now);
      CHECK(now == (std::getenv("BARWRIGHT_RECORD") != nullptr ? now : expected));
    }
  }
}

TEST_CASE("the same files give the same bytes, twice over") {
  const std::string command = "barwright blend examples/firmer-bar.yaml --answers 3 --json";
  const Ran once = run(command);
  CHECK(once.exit_code == 0);
  CHECK(once.out == run(command).out);
}
