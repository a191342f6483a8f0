// The layers point one way, core <- oils <- targets <- solver <- solver/app, and so do the rooms in
// each. Third-party headers stay out of public headers, and each library in its layer.
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

TEST_CASE("rooms include one another along the arrows named here, and no others") {
  // What each room may include besides itself; "solver/jobs" does not stand for the rooms below it.
  const std::map<std::string, std::set<std::string>> may = {
      {"core/units", {}},
      {"core/chemistry", {"core/units"}},
      {"core/lye", {"core/units", "core/chemistry"}},
      {"core/bench", {"core/units", "core/chemistry", "core/lye"}},
      {"core/trade", {"core/units", "core/chemistry", "core/lye"}},
      {"oils", {"oils/text"}},
      {"oils/files", {"core/units"}},
      {"oils/text", {"oils/files", "core/units"}},
      {"oils/records",
       {"oils", "oils/files", "oils/text", "core/units", "core/chemistry", "core/lye",
        "core/trade"}},
      {"oils/books", {"oils/files", "oils/records", "oils/text", "core/*"}},
      {"targets", {"oils"}},
      {"targets/text", {"core/units", "oils/text", "oils/records"}},
      {"targets/model",
       {"targets", "core/units", "core/chemistry", "core/lye", "oils/text", "oils/records"}},
      {"targets/files", {"targets/text", "targets/model", "core/*", "oils/*"}},
      {"targets/brief", {"targets/text", "targets/files", "targets/model", "core/*", "oils/*"}},
      {"solver/optimise", {"solver/optimise/relaxation"}},
      {"solver/optimise/relaxation", {"solver/optimise"}},  // problem.hpp, see below
      {"solver/explain", {"solver/optimise"}},
      {"solver/recipe", {"core/*", "oils/*", "targets/*"}},
      {"solver/batch", {"solver/recipe", "core/*", "oils/*", "targets/*"}},
      {"solver/books", {"solver/batch", "solver/recipe", "core/*", "oils/*", "targets/*"}},
      {"solver/formulate",
       {"solver/optimise", "solver/explain", "solver/recipe", "core/*", "oils/*", "targets/*"}},
      {"solver/tune", {"core/*", "oils/*", "targets/*"}},
      {"solver/jobs",
       {"solver/formulate", "solver/explain", "solver/optimise", "solver/recipe", "core/*",
        "oils/*", "targets/*"}},
      {"solver/jobs/swap",
       {"solver/jobs", "solver/formulate", "solver/explain", "solver/recipe", "core/*", "oils/*",
        "targets/*"}},
      {"solver/jobs/report",
       {"solver/jobs", "solver/jobs/swap", "solver/formulate", "solver/explain", "solver/optimise",
        "oils/*", "targets/*"}},
      {"solver/jobs/buying", {"solver/explain", "solver/optimise", "oils/books"}},
      {"solver/jobs/explore",
       {"solver/jobs", "solver/jobs/swap", "solver/jobs/buying", "solver/formulate",
        "solver/explain", "solver/recipe", "solver/optimise", "core/*", "oils/*", "targets/*"}}};
  // The program's rooms may use every layer, so only the arrows between them are listed.
  const std::map<std::string, std::set<std::string>> program = {
      {"solver/app/options", {}},
      {"solver/app", {"solver/app/options"}},
      {"solver/app/print", {"solver/app"}},
      {"solver/app/blend", {"solver/app", "solver/app/print"}},
      {"solver/app/edit", {"solver/app"}},
      {"solver/app/tune", {"solver/app", "solver/app/print"}},
      {"solver/app/serve", {"solver/app", "solver/app/print"}},
      {"solver/app/workbench/engine", {"solver/app", "solver/app/options", "solver/app/serve"}},
      {"solver/app/sheet", {"solver/app", "solver/app/print", "solver/app/blend"}},
      {"solver/app/oils", {"solver/app", "solver/app/print", "solver/app/blend"}},
      {"solver/app/swap",
       {"solver/app", "solver/app/print", "solver/app/blend", "solver/app/sheet"}},
      {"solver/app/explore",
       {"solver/app", "solver/app/print", "solver/app/blend", "solver/app/sheet"}},
      {"solver/app/books",
       {"solver/app", "solver/app/options", "solver/app/print", "solver/app/blend",
        "solver/app/sheet"}}};
  const auto parent = [](const std::string& path) { return path.substr(0, path.rfind('/')); };
  for (const auto& source : sources()) {
    const std::string room = parent(source.path);
    const bool inside = starts(room, "solver/app");
    const auto& rooms = inside ? program : may;
    INFO(source.path << " stands in a room without a line here");
    REQUIRE(rooms.count(room) == 1);
    for (const auto& include : source.includes) {
      if (include.find('/') == std::string::npos) continue;
      const std::string to = parent(include);
      const std::string layer = to.substr(0, to.find('/'));
      if (layer != "core" && layer != "oils" && layer != "targets" && layer != "solver") continue;
      if (to == room || (inside && !starts(to, "solver/app"))) continue;
      // Where the program is put together of its commands.
      if (source.path == "solver/app/run.cpp" && include.find("/command_") != std::string::npos) {
        continue;
      }
      INFO(source.path << " includes " << include);
      if (room == "solver/optimise/relaxation") CHECK(include == "solver/optimise/problem.hpp");
      CHECK((rooms.at(room).count(to) == 1 || rooms.at(room).count(layer + "/*") == 1));
    }
  }
}

TEST_CASE("a room of the solver is a namespace, and so is each layer below it") {
  static const std::regex opened(R"(^namespace barwright::(\w+))");
  for (const auto& source : sources()) {
    const std::string room = source.path.substr(source.path.find('/') + 1);
    const std::string expected = source.layer == "solver/app" ? "app"
                                 : source.layer == "solver"   ? room.substr(0, room.find('/'))
                                                              : source.layer;
    std::istringstream text(slurp(kRoot + "/" + source.path));
    for (std::string line; std::getline(text, line);) {
      std::smatch match;
      if (!std::regex_search(line, match, opened)) continue;
      INFO(source.path << ": " << line);
      CHECK(match[1] == expected);
    }
  }
}

TEST_CASE("libraries stay in their layers, and out of public headers") {
  const std::map<std::string, std::set<std::string>> allowed_in = {
      {"yaml-cpp/", {"oils"}},       {"CLI/", {"solver/app"}},
      {"nlohmann/", {"solver/app"}}, {"httplib", {"solver/app"}},
      {"nlopt", {"solver"}},         {"fmt/", {"oils", "targets", "solver", "solver/app"}},
      {"Eigen/", {"solver"}}};
  for (const auto& source : sources()) {
    for (const auto& include : source.includes) {
      for (const auto& [library, layers] : allowed_in) {
        if (!starts(include, library)) continue;
        INFO(source.path << " includes " << include);
        CHECK(layers.count(source.layer) == 1);
        CHECK_FALSE(source.header);
        // Slow to compile: behind our own header, in one source each.
        if (library == "CLI/") CHECK(source.path == "solver/app/options/command_line.cpp");
        if (library == "nlohmann/") CHECK(source.path == "solver/app/json.cpp");
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
