// Bytes that are no text, signs that are not seen, cells and scalars that are more than they seem.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

#include "running.hpp"

using namespace barwright::tests;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

const std::string kRecipe = "blend: {olive: 100 %}\nsuperfat: 5 %\noils: 1000 g\n";

std::string yard(const std::string& name) {
  const std::string folder = fresh_folder(name);
  REQUIRE(run("barwright new yard", folder).exit_code == 0);
  return folder + "/yard";
}

bool printable(const std::string& text) {
  for (const char c : text)
    if ((static_cast<unsigned char>(c) < 0x20 && c != '\n') || c == 0x7F) return false;
  return true;
}

}  // namespace

TEST_CASE("what is no text in an argument is refused, and nothing of it is recorded") {
  const std::string folder = yard("bites-arguments");
  for (const char* word : {"$'b\\xe9'", "$'b\\xc0\\xaf'", "$'b\\xed\\xa0\\x80'", "$'b\\e[31m'",
                           "$'b\\xc2\\x9b'", "$'b\\xe2\\x80\\xae'", "$'\\xff\\xfeb'"}) {
    CAPTURE(word);
    for (const std::string command :
         {"shelf reserve olive '900 g' --for ", "shelf receive olive '1 kg' --lot ",
          "shelf receive olive '1 kg' --lot M --note ", "make yard-bar.yaml --as ",
          "make yard-bar.yaml --note ", "shelf trace ", "weigh ",
          "blend --from olive:100 --want "}) {
      CAPTURE(command);
      const Ran ran =
          run("bash -c \"'" BARWRIGHT_BINARY "' " + command + word + " --json\"", folder);
      CHECK(ran.exit_code == 2);
      const json said = json::parse(ran.out);
      CHECK(said["status"] == "wrong-usage");
      CHECK(said["errors"][0]["line"] == 1);
      CHECK(said["errors"][0]["column"].get<int>() >= 1);
      CHECK(printable(ran.err));
    }
  }
  CHECK(run("ls *journal*", folder).exit_code != 0);
  CHECK(json::parse(run("barwright shelf --json", folder).out)["status"] == "listed");
}

TEST_CASE("what is no text in a file is refused with line and column") {
  const std::string folder = yard("bites-files");
  for (const auto& [bytes, column] : {std::pair{"caf\xE9", 10},
                                      {"\xC0\xAF", 7},
                                      {"a\xE0\x80\xAF", 8},
                                      {"ab\xED\xA0\x80", 9},
                                      {"\xC2\x85", 7},
                                      {"b\x7F", 8},
                                      {"b\xE2\x80\xAE", 8}}) {
    spill(folder + "/bar.yaml", "# ours\nname: " + std::string(bytes) + "\n" + kRecipe);
    const Ran ran = run("barwright weigh bar.yaml --json", folder);
    CHECK(ran.exit_code == 3);
    const json said = json::parse(ran.out)["errors"][0];
    CHECK(said["line"] == 2);
    CHECK(said["column"] == column);
    CHECK(printable(ran.err));
  }
  std::string wide;
  for (const char c : "name: bar\n" + kRecipe) wide += std::string{c, '\0'};
  spill(folder + "/bar.yaml", wide);
  CHECK_THAT(run("barwright weigh bar.yaml", folder).err, Contains("UTF-16"));
}

TEST_CASE("what is no text in a table is refused with line and column") {
  const std::string folder = yard("bites-tables");
  const std::string prices = slurp(folder + "/spring-line-prices.csv");
  spill(folder + "/spring-line-prices.csv", prices + "oli\xE9,1 kg,5.00\n");
  CHECK_THAT(run("barwright explore spring-line.yaml", folder).err,
             Contains("prices.csv:") && Contains(":4: the line holds bytes that are not UTF-8"));
  REQUIRE(run("barwright shelf reserve olive '900 g' --for spring", folder).exit_code == 0);
  const std::string journal = folder + "/weighbridge-shelf-journal.csv";
  spill(journal, slurp(journal) + "2027-01-01,noted,caf\xE9,,,,,,,,,x\n");
  const Ran ran = run("barwright shelf --json", folder);
  CHECK(ran.exit_code == 3);
  CHECK(json::parse(ran.out)["errors"][0]["line"] == 3);
}

TEST_CASE("a sign written out in quotes is refused as the sign itself") {
  const std::string folder = yard("bites-escapes");
  for (const char* sign : {"\\e[31m", "\\x07", "\\u009b", "\\u202e", "\\0", "\\b"}) {
    CAPTURE(sign);
    spill(folder + "/bar.yaml", "name: \"bar " + std::string(sign) + "\"\n" + kRecipe);
    const Ran ran = run("barwright weigh bar.yaml", folder);
    CHECK(ran.exit_code == 3);
    CHECK_THAT(ran.err, Contains("bar.yaml:1:7:"));
    CHECK(printable(ran.err));
  }
}

TEST_CASE("names of files are shown and not obeyed") {
  const std::string folder = fresh_folder("bites-names");
  spill(folder + "/a\x1B[31mshelf.yaml", "x");
  spill(folder + "/b\xE9shelf.yaml", "x");
  for (const char* command : {"barwright shelf", "barwright shelf --json"}) {
    const Ran ran = run(command, folder);
    CHECK(ran.exit_code == 2);
    CHECK_THAT(ran.err, Contains("a\\x1B[31mshelf.yaml") && Contains("b\\xE9shelf.yaml"));
    CHECK(printable(ran.err));
    CHECK(printable(ran.out));
  }
}

TEST_CASE("a name over several lines stays within its own") {
  const std::string folder = yard("bites-lines");
  spill(folder + "/bar.yaml", "name: \"bar\\n\\nSAFE TO EAT\"\n" + kRecipe);
  CHECK_THAT(run("barwright weigh bar.yaml", folder).out, Contains("bar  SAFE TO EAT"));
}

TEST_CASE("a narrow terminal gets narrow lines, and a dumb one no colours") {
  const std::string folder = yard("bites-narrow");
  const auto in_a_terminal = [&](const std::string& command) {
    const Ran ran =
        run("unset NO_COLOR; script -qec \"stty cols 40; " + command + "\" /dev/null", folder);
    REQUIRE(ran.exit_code == 0);
    return ran.out;
  };
  const std::string bar = "'" BARWRIGHT_BINARY "' blend firmer-bar.yaml";
  CHECK_THAT(in_a_terminal("TERM=xterm " + bar), Contains("\x1B[1m"));
  const std::string plain = in_a_terminal("TERM=dumb " + bar);
  CHECK_THAT(plain, !Contains("\x1B"));
  std::istringstream lines(plain);
  for (std::string line; std::getline(lines, line);) {
    CAPTURE(line);
    CHECK(line.size() <= 41);  // with the terminal's own carriage return
  }
}
