// Every worked example in --help runs as it stands there.
#include <catch2/catch.hpp>
#include <sstream>
#include <vector>

#include "running.hpp"

using namespace barwright::tests;

namespace {

struct Example {
  std::vector<std::string> commands;  // as typed, lines joined
  std::vector<std::pair<std::string, std::string>> files;
};

// Commands stand indented; so do the lines of a file behind "where NAME holds".
Example example_of(const std::string& help) {
  Example out;
  const auto from = help.find("Worked example");
  REQUIRE(from != std::string::npos);
  std::istringstream lines(help.substr(from));
  bool holds = false, goes_on = false;
  for (std::string line; std::getline(lines, line);) {
    const bool indented = line.starts_with("  ");
    std::string text = indented ? line.substr(line.find_first_not_of(' ')) : line;
    if (line.starts_with("where ")) {
      out.files.emplace_back(line.substr(6, line.find(" holds") - 6), "");
      holds = true;
    } else if (!indented) {
      holds = false;
    } else if (goes_on) {
      out.commands.back() += text;
    } else if (text.starts_with("barwright ")) {
      out.commands.push_back(text);
    } else if (holds) {
      out.files.back().second += line.substr(2) + "\n";
    }
    goes_on = text.ends_with("\\") && !out.commands.empty();
    if (goes_on) out.commands.back().pop_back();
  }
  REQUIRE_FALSE(out.commands.empty());
  return out;
}

}  // namespace

TEST_CASE("every worked example in the help runs") {
  for (const std::string command :
       {"new", "blend", "swap", "explore", "weigh", "oils", "sheet", "rescue", "shelf", "make",
        "release", "label", "price", "edit"}) {
    const std::string folder = fresh_folder("help-" + command);
    REQUIRE(run("barwright new my-workshop", folder).exit_code == 0);
    const Example example = example_of(run("barwright " + command + " --help").out);
    // What a day's work has brought so far.
    if (command == "release")
      REQUIRE(run("barwright make my-workshop/towpath-batch.yaml --as slipway --shelf "
                  "my-workshop/weighbridge-shelf.yaml",
                  folder)
                  .exit_code == 0);
    for (const auto& [name, text] : example.files) spill(folder + "/" + name, text);
    for (const auto& line : example.commands) {
      CAPTURE(command, line);
      if (line.find(" serve ") != std::string::npos) continue;  // does not end by itself
      const bool books = command == "shelf" || command == "release" || command == "make";
      const bool by_itself = line.find("my-workshop") != std::string::npos && !books;
      if (line == "barwright new my-workshop") continue;  // done
      // The books are those of the folder one stands in.
      std::string here = line;
      if (!by_itself) {
        for (std::size_t at; (at = here.find("my-workshop/")) != std::string::npos;)
          here.erase(at, 12);
      }
      const Ran ran =
          run(here, by_itself || example.files.empty() == false ? folder : folder + "/my-workshop");
      CHECK((ran.err.empty() || ran.err.starts_with("Page written to towpath.html: ")));
      CHECK(ran.exit_code == 0);
    }
  }
}
