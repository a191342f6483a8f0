// One value changes, every other byte stays.
#include "oils/text/yaml_edit.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "core/units/error.hpp"
#include "oils/text/yaml.hpp"

using namespace barwright::oils::yaml;
using barwright::core::InputError;
using Catch::Matchers::Contains;

namespace {

const std::string kBrief =
    "# mine\n"
    "brief: firmer\n"
    "want:                 # against the bar in the hand\n"
    "  hardness: at least 5 above   # firmer\n"
    "\n"
    "  \"lather\": 'no less'\n"
    "# about limits\n"
    "limits:\n"
    "  oils: at most 5\n"
    "  castor: {least: 3 %, most: 8 %}  # dear\n"
    "  empty:\n"
    "  none: {}\n"
    "stock:\n"
    "  - {oil: olive, have: 5 kg, lots: [A, \"B, C\"]}\n"
    "  - oil: castor\n"
    "    have: 1 kg\n"
    "last: done\n";

std::string with(const std::string& path, const std::string& value,
                 const std::string& text = kBrief) {
  return with_value(text, "b.yaml", path, value).text;
}
std::string without(const std::string& path, const std::string& text = kBrief) {
  return without_value(text, "b.yaml", path).text;
}

std::string swapped(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}
std::string swapped(const std::string& from, const std::string& to) {
  return swapped(kBrief, from, to);
}

std::string complaint(const std::string& path, const std::string& value = "x",
                      const std::string& text = kBrief) {
  try {
    with(path, value, text);
  } catch (const InputError& error) {
    return error.what();
  }
  return "taken";
}

}  // namespace

TEST_CASE("a value is changed where it stands, with its comment and its quotes") {
  CHECK(with("want.hardness", "at least 7 above") ==
        swapped("at least 5 above", "at least 7 above"));
  CHECK(with("want.lather", "no more") == swapped("'no less'", "\"no more\""));
  CHECK(with("brief", "softer") == swapped("firmer", "softer"));
  CHECK(with("last", "x") == swapped("done", "x"));
  CHECK(with("limits.castor.most", "9 %") == swapped("8 %", "9 %"));
  CHECK(with("limits.castor", "{most: 4 %}") == swapped("{least: 3 %, most: 8 %}", "{most: 4 %}"));
  CHECK(with("limits.castor", "at most 4 %") == swapped("{least: 3 %, most: 8 %}", "at most 4 %"));
  CHECK(with("stock.0.have", "4 kg") == swapped("5 kg", "4 kg"));
  CHECK(with("stock.1.have", "4 kg") == swapped("1 kg", "4 kg"));
  CHECK(with("stock.0.lots.1", "D") == swapped("\"B, C\"", "\"D\""));
  CHECK(with("limits.empty", "x") == swapped("empty:", "empty: x"));
  CHECK(with_value(kBrief, "b", "want.hardness", "x").was == "at least 5 above");
  CHECK(with_value(kBrief, "b", "want.lather", "x").was == "'no less'");
  CHECK_FALSE(with_value(kBrief, "b", "want.new", "x").was);
}

TEST_CASE("a value is quoted where it would read back as something else") {
  CHECK(with("want.hardness", "a: b # c") == swapped("at least 5 above", "\"a: b # c\""));
  CHECK(with("want.hardness", "5 above, no more") ==
        swapped("at least 5 above", "5 above, no more"));
  CHECK(with("limits.castor.most", "8 %, of all") == swapped("8 %", "\"8 %, of all\""));
  CHECK(with("want.hardness", "null") == swapped("at least 5 above", "\"null\""));
  CHECK(with("want.hardness", "say \"so\"") == swapped("at least 5 above", "say \"so\""));
  CHECK(with("want.hardness", "\"so\" \\ ") == swapped("at least 5 above", "\"\\\"so\\\" \\\\ \""));
  CHECK(with("want.hardness", "- x") == swapped("at least 5 above", "\"- x\""));
  CHECK(with("want.hardness", " x ") == swapped("at least 5 above", "\" x \""));
  CHECK(with("want.hardness", "") == swapped("at least 5 above", "\"\""));
  CHECK_THAT(complaint("want.hardness", "a\nb"), Contains("one line of plain text"));
  CHECK_THAT(complaint("want.hardness", "{most: "), Contains("cannot be read"));
}

TEST_CASE("a key that is not there is added to its block") {
  CHECK(with("want.mildness", "no less") ==
        swapped("  \"lather\": 'no less'\n", "  \"lather\": 'no less'\n  mildness: no less\n"));
  CHECK(with("limits.beef tallow", "{most: 40 %}") ==
        swapped("  none: {}\n", "  none: {}\n  beef tallow: {most: 40 %}\n"));
  CHECK(with("limits.castor.fixed", "x") == swapped("most: 8 %}", "most: 8 %, fixed: x}"));
  CHECK(with("limits.none.a", "1") == swapped("none: {}", "none: {a: 1}"));
  CHECK(with("limits.empty.a", "1") == swapped("empty:", "empty: {a: 1}"));
  CHECK(with("stock.1.lot", "Q") == swapped("    have: 1 kg\n", "    have: 1 kg\n    lot: Q\n"));
  CHECK(with("stock.2", "{oil: shea}") ==
        swapped("    have: 1 kg\n", "    have: 1 kg\n  - {oil: shea}\n"));
  CHECK(with("stock.0.lots.2", "E") == swapped("\"B, C\"]", "\"B, C\", E]"));
  CHECK(with("note", "x") == kBrief + "note: x\n");
  CHECK(with("lye.superfat", "5 %") == kBrief + "lye:\n  superfat: 5 %\n");
  CHECK(with("scale.\"a: b\"", "x", "a: 1\r\n") == "a: 1\r\nscale:\r\n  \"a: b\": x\r\n");
  CHECK(with("want.\"a.b\"", "x") ==
        swapped("  \"lather\": 'no less'\n", "  \"lather\": 'no less'\n  a.b: x\n"));
  CHECK(with("b", "2", "a: 1") == "a: 1\nb: 2");
  CHECK(with("a.c", "2", "a:\n  b: 1   # one") == "a:\n  b: 1   # one\n  c: 2");
}

TEST_CASE("a key is taken out with its line") {
  CHECK(without("want.hardness") == swapped("  hardness: at least 5 above   # firmer\n", ""));
  CHECK(without("want.lather") == swapped("  \"lather\": 'no less'\n", ""));
  CHECK(without("limits.castor.least") == swapped("least: 3 %, ", ""));
  CHECK(without("limits.castor.most") == swapped(", most: 8 %", ""));
  CHECK(without("limits.empty") == swapped("  empty:\n", ""));
  CHECK(without("stock.0") == swapped("  - {oil: olive, have: 5 kg, lots: [A, \"B, C\"]}\n", ""));
  CHECK(without("stock.1") == swapped("  - oil: castor\n    have: 1 kg\n", ""));
  CHECK(without("stock.1.have") == swapped("    have: 1 kg\n", ""));
  CHECK(without("stock.0.lots.0") == swapped("[A, \"B, C\"]", "[\"B, C\"]"));
  CHECK(without("last") == swapped("last: done\n", ""));
  CHECK(without("want", "a: 1\nwant:\n  b: 2\n  c: 3\nd: 4\n") == "a: 1\nd: 4\n");
  CHECK_THROWS_AS(without("stock.1.oil"), InputError);  // its line holds the dash of the entry
  CHECK_THROWS_AS(without("want.nothing"), InputError);
}

TEST_CASE("line ends and a byte order mark stay as they are") {
  std::string windows = "\xEF\xBB\xBF";
  for (const char c : kBrief) windows += c == '\n' ? std::string("\r\n") : std::string(1, c);
  CHECK(with("want.hardness", "x", windows) == swapped(windows, "at least 5 above", "x"));
  CHECK(with("brief", "x", windows) == swapped(windows, "firmer", "x"));
  CHECK(with("want.mildness", "x", windows) ==
        swapped(windows, "'no less'\r\n", "'no less'\r\n  mildness: x\r\n"));
  CHECK(without("limits.empty", windows) == swapped(windows, "  empty:\r\n", ""));
}

TEST_CASE("a place that is not there is told with the nearest") {
  CHECK_THAT(complaint("wnat.hardness"), Contains("there is no 'wnat' here") &&
                                             Contains("Did you mean 'want'?") &&
                                             Contains("b.yaml:2:1"));
  CHECK_THAT(complaint("want.hardness.more"), Contains("single value"));
  CHECK_THAT(complaint("stock.7"), Contains("from 0 to 2"));
  CHECK_THAT(complaint("stock.olive"), Contains("from 0 to 2"));
  CHECK_THAT(complaint("want"), Contains("a whole block stands here"));
  for (const char* path : {"", ".", "want.", ".want", "want..hardness", "\"want"})
    CHECK_THAT(complaint(path), Contains("no place in a file"));
}

TEST_CASE("what cannot be changed without touching its surroundings is refused") {
  const std::string text = "a: one\n  two\nb: |\n  text\n  more\nc: x\n";
  CHECK_THAT(complaint("a", "x", text), Contains("goes over several lines"));
  CHECK_THAT(complaint("b", "x", text), Contains("goes over several lines"));
  CHECK(with("c", "y", text) == swapped(text, "c: x", "c: y"));
}

// Every single value of every example and library file, changed and changed back.
TEST_CASE("every value of the files at hand can be changed and changed back") {
  namespace fs = std::filesystem;
  std::size_t tried = 0;
  for (const char* folder : {"/examples", "/tests/app/fixtures", "/oils/additives"}) {
    for (const auto& entry : fs::directory_iterator(std::string(BARWRIGHT_SOURCE_DIR) + folder)) {
      if (entry.path().extension() != ".yaml") continue;
      std::ifstream file(entry.path(), std::ios::binary);
      const std::string text(std::istreambuf_iterator<char>(file), {});
      std::vector<std::pair<Node, std::string>> open;
      try {
        open = {{Document::from_text(text, "f").root(), ""}};
      } catch (const InputError&) {
        continue;  // a fixture of a broken file
      }
      while (!open.empty()) {
        const auto [node, path] = open.back();
        open.pop_back();
        const auto inner = [&path = path](const std::string& part) {
          return (path.empty() ? "" : path + ".") + "\"" + part + "\"";
        };
        if (node.is_map())
          for (const auto& [key, value] : node.entries())
            open.emplace_back(value, inner(key.text()));
        if (node.is_list())
          for (std::size_t i = 0; i < node.items().size(); ++i)
            open.emplace_back(node.items()[i], inner(std::to_string(i)));
        if (!node.is_scalar() || node.text().find('\n') != std::string::npos) continue;
        INFO(entry.path() << " " << path);
        Edited once;
        try {
          once = with_value(text, "f", path, "something, else");
        } catch (const InputError& error) {
          REQUIRE_THAT(error.what(), Contains("several lines"));
          continue;
        }
        const Edited back = with_value(once.text, "f", path, node.text());
        REQUIRE(once.text != text);
        if (!node.is_quoted() && once.text.find("\"something, else\"") == std::string::npos)
          REQUIRE(back.text == text);
        REQUIRE(with_value(back.text, "f", path, "something, else").text == once.text);
        ++tried;
      }
    }
  }
  CHECK(tried > 500);
}
