// In a country that writes a comma for the decimals the same files give the same bytes.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <locale>

#include "running.hpp"
#include "solver/app/run.hpp"

using namespace barwright;
using namespace barwright::tests;

// The C library keeps what LOCPATH named until the end; a leak checker finds that, and it is not
// ours.
extern "C" const char* __lsan_default_suppressions();  // NOLINT(bugprone-reserved-identifier)
extern "C" const char* __lsan_default_suppressions() { return "leak:argz_add_sep\n"; }

namespace {

// Names a German locale, made for this test where the system has none but knows how.
std::string german(const std::string& folder) {
  const Ran made =
      run("mkdir -p '" + folder + "' && localedef -i de_DE -f UTF-8 '" + folder + "/de_DE.UTF-8'");
  if (made.exit_code == 0) REQUIRE(::setenv("LOCPATH", folder.c_str(), 1) == 0);
  return "de_DE.UTF-8";
}

}  // namespace

TEST_CASE("a German locale changes no byte", "[locale]") {
  const std::string folder = fresh_folder("locale");
  const std::string name = german(folder + "/locales");
  const std::locale before;
  std::locale there = before;
  try {
    there = std::locale(name);
  } catch (const std::runtime_error&) {
    WARN("no German locale here: 'apt-get install locales' brings what it is made from");
    return;
  }
  REQUIRE(std::use_facet<std::numpunct<char>>(there).decimal_point() == ',');
  const std::string examples = BARWRIGHT_SOURCE_DIR "/examples/";
  for (const std::vector<std::string>& args :
       {std::vector<std::string>{"weigh", examples + "yard-bar.yaml"},
        {"blend", examples + "firmer-bar.yaml", "--json"},
        {"swap", examples + "butter-out.yaml"},
        {"explore", examples + "spring-line.yaml", "--csv"},
        {"sheet", examples + "towpath-batch.yaml", "--json"},
        {"oils", "olive", "--json"},
        {"blend", examples + "firmer-bar.yaml", "--within", "1.5min"},
        {"blend", examples + "firmer-bar.yaml", "--lots",
         BARWRIGHT_SOURCE_DIR "/tests/oils/olive-lots.csv", "--oil", "olive"}}) {
    CAPTURE(args[0]);
    const app::Reply plain = app::run(args);
    std::locale::global(there);  // the C library's too
    const app::Reply german = app::run(args);
    std::locale::global(before);
    CHECK(german.exit_code == plain.exit_code);
    CHECK(german.text == plain.text);
    CHECK(german.error == plain.error);
  }
}
