#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace barwright::tests;
using Catch::Matchers::Contains;
using json = nlohmann::json;
namespace fs = std::filesystem;

TEST_CASE("edit: one value of a file, and the file is left as it was where it cannot be") {
  const std::string folder = fresh_folder("edit");
  const std::string brief = folder + "/firmer-bar.yaml";
  fs::copy(BARWRIGHT_SOURCE_DIR "/examples/firmer-bar.yaml", brief);
  const std::string before = slurp(brief);

  const Ran done = run("barwright edit firmer-bar.yaml want.hardness 'at least 7 above'", folder);
  CHECK(done.exit_code == 0);
  CHECK(done.out ==
        "firmer-bar.yaml: want.hardness is at least 7 above (was: at least 5 above).\n");
  std::string expected = before;
  expected.replace(expected.find("at least 5 above"), 16, "at least 7 above");
  CHECK(slurp(brief) == expected);

  const json back = json::parse(
      run("barwright edit firmer-bar.yaml want.hardness 'at least 5 above' --json", folder).out);
  CHECK(back["was"] == "at least 7 above");
  CHECK(back["value"] == "at least 5 above");
  CHECK(slurp(brief) == before);

  CHECK(run("barwright edit firmer-bar.yaml limits.castor --remove", folder).exit_code == 0);
  CHECK(slurp(brief).find("castor") == std::string::npos);
  spill(brief, before);

  for (const char* wrong :
       {"wnat.hardness x", "want x", "want.hardness.more x", "want.nothing --remove",
        "oils-from.3 x", "want.hardness 'a\tb'", "want.hardness '{most: '"}) {
    INFO(wrong);
    const Ran ran = run(std::string("barwright edit firmer-bar.yaml ") + wrong, folder);
    CHECK(ran.exit_code == 3);
    CHECK_FALSE(ran.err.empty());
    CHECK(slurp(brief) == before);
  }
  CHECK(run("barwright edit nowhere.yaml a b", folder).exit_code == 3);
  CHECK(run("barwright edit firmer-bar.yaml want.hardness", folder).exit_code == 2);
  CHECK(run("barwright edit firmer-bar.yaml want.hardness x --remove", folder).exit_code == 2);
  CHECK(std::distance(fs::directory_iterator(folder), fs::directory_iterator()) == 1);
  fs::remove_all(folder);
}
