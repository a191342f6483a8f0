// What once crashed a reader, and files made from the examples by a fixed dice, leave each reader
// whole. The long runs are tests/fuzz/run.sh's.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <random>

#include "running.hpp"
#include "tests/fuzz/readers.hpp"

using namespace barwright;
using namespace barwright::tests;
namespace fs = std::filesystem;

namespace {

std::vector<std::string> files_below(const std::string& folder) {
  std::vector<std::string> out;
  std::error_code none;
  for (const auto& entry : fs::recursive_directory_iterator(folder, none))
    if (entry.is_regular_file()) out.push_back(entry.path().string());
  std::sort(out.begin(), out.end());
  return out;
}

const std::string kTests = BARWRIGHT_SOURCE_DIR "/tests";

}  // namespace

TEST_CASE("what the fuzzer found crashes no reader any more", "[fuzz]") {
  for (const auto& reader : fuzz::readers()) {
    for (const auto& file : files_below(kTests + "/fuzz/found/" + reader.name)) {
      CAPTURE(reader.name, file);
      CHECK_NOTHROW(reader.read(slurp(file)));
    }
  }
}

TEST_CASE("no reader falls over a file of another kind, or over one that was mangled", "[fuzz]") {
  std::vector<std::string> seeds;
  for (const char* folder : {"/../examples", "/oldest", "/app/fixtures"})
    for (const auto& file : files_below(kTests + folder)) seeds.push_back(slurp(file));
  REQUIRE(seeds.size() > 30);
  std::mt19937_64 random(20);
  const std::string signs("\0\xFF\xC3\x1B\n\t :{}[],\"'#-&*!%0=", 24);
  for (const auto& reader : fuzz::readers()) {
    if (reader.name == std::string("program")) continue;  // searches take their time
    CAPTURE(reader.name);
    for (const auto& seed : seeds) {
      CHECK_NOTHROW(reader.read(seed));
      std::string text = seed;
      for (int change = 0; change < 4 && !text.empty(); ++change) {
        const std::size_t at = random() % text.size();
        if (random() % 3 == 0)
          text.erase(at, random() % 40);
        else
          text.insert(at, 1, signs[random() % signs.size()]);
        INFO(text);
        CHECK_NOTHROW(reader.read(text));
      }
    }
  }
}
