// The starter folder: every file that a help text or the README speaks of is in it.
#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "running.hpp"

using namespace barwright::tests;
using Catch::Matchers::Contains;

namespace {

// Names of files in a text, but for those in folders other than a workshop's.
std::set<std::string> files_named(const std::string& text) {
  std::set<std::string> out;
  const std::regex name("([A-Za-z0-9_./*-]*?)([a-z0-9-]+\\.(yaml|csv))\\b");
  for (std::sregex_iterator it(text.begin(), text.end(), name), end; it != end; ++it) {
    const std::string folder = (*it)[1];
    if (folder.empty() || folder == "my-workshop/" || folder == "examples/")
      out.insert((*it)[2].str());
  }
  return out;
}

}  // namespace

TEST_CASE("'new' writes every file that a help text or the README names", "[new]") {
  const std::string folder = fresh_folder("starter");
  REQUIRE(run("barwright new yard", folder).exit_code == 0);
  std::set<std::string> named = files_named(slurp(BARWRIGHT_SOURCE_DIR "/README.md"));
  for (const char* command :
       {"blend", "swap", "explore", "weigh", "oils", "new", "sheet", "rescue", "shelf",
        "shelf receive", "make", "release", "label", "price", "tune"}) {
    const Ran help = run("barwright " + std::string(command) + " --help");
    REQUIRE(help.exit_code == 0);
    named.merge(files_named(help.out));
  }
  // What the program writes itself.
  for (const char* written : {"my.yaml", "my-bar.yaml", "my-brief.yaml", "bar.yaml", "tuned.yaml"})
    named.erase(written);
  CHECK(named.size() >= 10);
  for (const auto& file : named) {
    INFO(file);
    CHECK(std::filesystem::exists(folder + "/yard/" + file));
  }
}

TEST_CASE("the starter folder's worked examples give an answer", "[new]") {
  const std::string folder = fresh_folder("starter-runs");
  REQUIRE(run("barwright new yard", folder).exit_code == 0);
  const std::string yard = folder + "/yard";
  CHECK(run("barwright sheet towpath-batch.yaml", yard).exit_code == 0);
  CHECK(run("barwright blend too-hard.yaml", yard).exit_code == 4);
  const Ran label = run("barwright label towpath-batch.yaml --with towpath-label.yaml", yard);
  CHECK(label.exit_code == 0);
  CHECK_THAT(label.out, Contains("Limonene"));
  const Ran price =
      run("barwright price yard-bar.yaml --costs yard-costs.yaml --margin '55 %'", yard);
  CHECK(price.exit_code == 0);
  // The files hold what the help texts say they do.
  for (const auto& [command, file] :
       {std::pair("label", "towpath-label.yaml"), std::pair("price", "yard-costs.yaml")}) {
    const std::string help = run("barwright " + std::string(command) + " --help").out;
    const std::size_t from = help.find("holds\n");
    REQUIRE(from != std::string::npos);
    std::istringstream lines(help.substr(from + 6));
    const std::string text = slurp(yard + "/" + file);
    for (std::string line; std::getline(lines, line) && line.starts_with("  ");) {
      INFO(line);
      CHECK_THAT(text, Contains(line.substr(2)));
    }
  }
}
