// The layers point one way: core <- oils <- targets <- solver <- solver/app. Third-party headers
// stay out of public headers, and each library stays where the card puts it.
#include <catch2/catch.hpp>
#include <filesystem>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "running.hpp"

using namespace barwright::tests;
namespace fs = std::filesystem;

namespace {

const std::string kRoot = BARWRIGHT_SOURCE_DIR;

struct Source {
  std::string path;   // from the root
  std::string layer;  // "core", ..., "solver/app"
  bool header;
  std::set<std::string> includes;
};

std::vector<Source> sources() {
  static const std::regex include(R"(^\s*#\s*include\s*[<"]([^>"]+)[>"])");
  std::vector<Source> all;
  for (const char* layer : {"core", "oils", "targets", "solver"}) {
    for (const auto& entry : fs::recursive_directory_iterator(kRoot + "/" + layer)) {
      const std::string extension = entry.path().extension().string();
      if (extension != ".cpp" && extension != ".hpp") continue;
      Source source;
      source.path = fs::relative(entry.path(), kRoot).string();
      source.layer = source.path.rfind("solver/app/", 0) == 0 ? "solver/app" : layer;
      source.header = extension == ".hpp";
      std::istringstream text(slurp(entry.path().string()));
      for (std::string line; std::getline(text, line);) {
        std::smatch match;
        if (std::regex_search(line, match, include)) source.includes.insert(match[1]);
      }
      all.push_back(std::move(source));
    }
  }
  return all;
}

bool starts(const std::string& text, const std::string& with) { return text.rfind(with, 0) == 0; }

}  // namespace

TEST_CASE("includes point one way through the layers") {
  const std::map<std::string, std::set<std::string>> forbidden = {
      {"core", {"oils/", "targets/", "solver/"}},
      {"oils", {"targets/", "solver/"}},
      {"targets", {"solver/"}},
      {"solver", {"solver/app/"}},
      {"solver/app", {}}};
  const auto all = sources();
  REQUIRE(all.size() > 150);
  for (const auto& source : all) {
    for (const auto& include : source.includes) {
      for (const auto& layer : forbidden.at(source.layer)) {
        INFO(source.path << " includes " << include);
        CHECK_FALSE(starts(include, layer));
      }
    }
  }
}

TEST_CASE("libraries stay in their layers, and out of public headers") {
  const std::map<std::string, std::set<std::string>> allowed_in = {
      {"yaml-cpp/", {"oils"}},
      {"CLI/", {"solver/app"}},
      {"nlohmann/", {"solver/app"}},
      {"nlopt", {"solver"}},
      {"fmt/", {"oils", "targets", "solver", "solver/app"}},
      {"Eigen/", {"core", "oils", "targets", "solver", "solver/app"}}};
  for (const auto& source : sources()) {
    for (const auto& include : source.includes) {
      for (const auto& [library, layers] : allowed_in) {
        if (!starts(include, library)) continue;
        INFO(source.path << " includes " << include);
        CHECK(layers.count(source.layer) == 1);
        const bool forward_only = include == "nlohmann/json_fwd.hpp";
        CHECK((!source.header || forward_only));
      }
    }
  }
}

TEST_CASE("the visible top level holds what a visitor needs, and nothing else") {
  const std::set<std::string> card = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE",
                                      "core",           "oils",      "targets",       "solver",
                                      "tests",          "examples"};
  for (const auto& entry : fs::directory_iterator(kRoot)) {
    const std::string name = entry.path().filename().string();
    if (name.front() == '.' || name == "compile_commands.json") continue;
    INFO(name);
    CHECK(card.count(name) == 1);
  }
}
