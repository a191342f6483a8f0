// The manual page and the shells' completion say what --help says: both come from one declaration.
#include <catch2/catch.hpp>
#include <filesystem>
#include <set>
#include <sstream>
#include <vector>

#include "running.hpp"

using namespace barwright::tests;

namespace {

struct Shown {
  std::vector<std::string> commands;  // "blend", "shelf receive"
  std::set<std::string> options;      // "--within"
};

// Reads the commands and options off a --help.
void read_help(const std::string& way, Shown& shown) {
  std::istringstream help(run("barwright " + way + (way.empty() ? "" : " ") + "--help").out);
  bool commands = false;
  for (std::string line; std::getline(help, line);) {
    if (line.starts_with("  --"))
      shown.options.insert(line.substr(2, line.find_first_of(" :", 2) - 2));
    if (line.empty()) commands = false;
    if (commands && line.size() > 2 && line[2] != ' ') {
      const std::string name = line.substr(2, line.find(' ', 2) - 2);
      shown.commands.push_back(way.empty() ? name : way + " " + name);
      read_help(shown.commands.back(), shown);
    }
    if (line == "Subcommands:") commands = true;
  }
}

const Shown& shown() {
  static const Shown all = [] {
    Shown out;
    read_help("", out);
    return out;
  }();
  return all;
}

// What bash would offer for the last of these words.
std::set<std::string> offered(const std::vector<std::string>& words) {
  const std::string folder = fresh_folder("completion");
  spill(folder + "/script", run("barwright completion bash").out);
  spill(folder + "/yard bar.yaml", "x");
  std::string all;
  for (const auto& word : words) all += " '" + word + "'";
  spill(folder + "/ask", ". ./script; COMP_WORDS=(barwright" + all +
                             "); COMP_CWORD=" + std::to_string(words.size()) +
                             "; _barwright; printf '%s\\n' \"${COMPREPLY[@]}\"\n");
  const Ran ran = run("bash ./ask", folder);
  CHECK(ran.err.empty());
  std::istringstream out(ran.out);
  std::set<std::string> lines;
  for (std::string line; std::getline(out, line);) lines.insert(line);
  std::filesystem::remove_all(folder);
  return lines;
}

}  // namespace

TEST_CASE("manual and completion know every command and option of the help", "[manual]") {
  REQUIRE(shown().commands.size() == 22);
  REQUIRE(shown().options.contains("--try-lots"));
  const std::string manual = run("barwright manual").out;
  const std::string bash = run("barwright completion bash").out;
  const std::string zsh = run("barwright completion zsh").out;
  const std::string fish = run("barwright completion fish").out;
  for (const auto& command : shown().commands) {
    INFO(command);
    CHECK(manual.find(".SS \"barwright " + command) != std::string::npos);
    CHECK(bash.find("'" + command + "') words=") != std::string::npos);
    std::string function = "_barwright_" + command;
    for (char& c : function) c = c == ' ' ? '_' : c;
    CHECK(zsh.find("\n" + function + "() {") != std::string::npos);
    CHECK(fish.find(" -a " + command.substr(command.rfind(' ') + 1) + " ") != std::string::npos);
  }
  for (const auto& option : shown().options) {
    INFO(option);
    std::string roff;
    for (const char c : option) roff += c == '-' ? "\\-" : std::string(1, c);
    CHECK(manual.find("\\fB" + roff + "\\fR") != std::string::npos);
    CHECK(bash.find(option) != std::string::npos);
    CHECK(zsh.find(option + "[") != std::string::npos);
    CHECK(fish.find("-l " + option.substr(2) + " ") != std::string::npos);
  }
}

TEST_CASE("bash completes commands, options, choices and files", "[manual]") {
  CHECK(offered({"shel"}) == std::set<std::string>{"shelf"});
  CHECK(offered({"shelf", "re"}) == std::set<std::string>{"receive", "reserve", "reorder"});
  CHECK(offered({"blend", "--wi"}) == std::set<std::string>{"--within"});
  CHECK(offered({"shelf", "receive", "--spread", ""}) == std::set<std::string>{"weight", "value"});
  CHECK(offered({"blend", "yard"}) == std::set<std::string>{"yard bar.yaml"});
  CHECK(offered({"blend", "--save", "yard"}) == std::set<std::string>{"yard bar.yaml"});
}

TEST_CASE("a shell we do not write for is refused", "[manual]") {
  const auto ran = run("barwright completion tcsh");
  CHECK(ran.exit_code == 2);
  CHECK(ran.err.find("tcsh") != std::string::npos);
}
