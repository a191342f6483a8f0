// What is written reads back the same: YAML and cells.
#include <catch2/catch.hpp>
#include <random>

#include "core/units/plain_text.hpp"
#include "oils/text/journal_csv.hpp"
#include "oils/text/yaml.hpp"
#include "oils/text/yaml_text.hpp"

using namespace barwright;

namespace {

// As names may be, and pieces that mean something to YAML or to a spreadsheet.
std::vector<std::string> names() {
  std::vector<std::string> out = {"olive",
                                  "a: b",
                                  "a:",
                                  ": a",
                                  "C18:1",
                                  "C18: 1",
                                  "# no",
                                  "a #b",
                                  "a#b",
                                  "- a",
                                  "-5",
                                  "-",
                                  "?",
                                  "? a",
                                  "null",
                                  "Null",
                                  "NULL",
                                  "~",
                                  "yes",
                                  "true",
                                  "1",
                                  "1.5",
                                  ".nan",
                                  "---",
                                  "...",
                                  "{a}",
                                  "[a]",
                                  "a, b",
                                  "a]",
                                  "a}",
                                  "'a'",
                                  "a'b",
                                  "shea d'or",
                                  "\"a\"",
                                  "a\"b",
                                  "a\\b",
                                  "\\n",
                                  "&a",
                                  "*a",
                                  "!a",
                                  "%a",
                                  "@a",
                                  "`a",
                                  "|",
                                  ">",
                                  "a|b",
                                  " a",
                                  "a ",
                                  "  ",
                                  "a  b",
                                  "\ta",
                                  "a\tb",
                                  "a\nb",
                                  "a\n\nb\n",
                                  "\n",
                                  "caf\xC3\xA9",
                                  "\xC3\xA9t\xC3\xA9",
                                  "=1+1",
                                  "+1",
                                  "@x",
                                  "''=x",
                                  "'",
                                  "'a",
                                  "\xF0\x9F\xA7\xBC soap",
                                  "a:b:c",
                                  "a:\xC3\xA9",
                                  "<<",
                                  "=",
                                  "5 kg",
                                  "0x1F"};
  std::mt19937_64 random(7);
  const std::string signs = "ab:#,[]{}\"'\\&*!|>%@`?-=+ \t\n~.0\xC3\xA9";
  while (out.size() < 3000) {
    std::string text;
    const std::size_t size = 1 + random() % 6;
    for (std::size_t i = 0; i < size; ++i) {
      const std::size_t at = random() % (signs.size() - 1);
      text += at == signs.size() - 2 ? signs.substr(at) : std::string(1, signs[at]);
    }
    out.push_back(text);
  }
  return out;
}

}  // namespace

TEST_CASE("every name that we write reads back the same, as key and as value, in every place") {
  for (const auto& name : names()) {
    CAPTURE(name);
    for (const auto& written : {oils::yaml::bare_or_quoted(name), oils::yaml::quoted(name)}) {
      CAPTURE(written);
      const auto root = oils::yaml::Document::from_text(
                            "a: " + written + "\nb: {c: [x, " + written + "], d: " + written +
                                "}\ne:\n  - {" + written + ": y}\nf:\n  " + written + ": z\n",
                            "f.yaml")
                            .root();
      CHECK(root.need("a").text() == name);
      CHECK(root.need("b").need("c").items().at(1).text() == name);
      CHECK(root.need("b").need("d").text() == name);
      CHECK(root.need("e").items().at(0).entries().at(0).first.text() == name);
      CHECK(root.need("f").entries().at(0).first.text() == name);
    }
  }
}

TEST_CASE("no cell that we write begins as a formula, and each reads back the same") {
  for (const char separator : {',', ';', '\t'}) {
    for (const auto& each : names()) {
      const std::string name = oils::yaml::trimmed(core::on_one_line(each));
      if (name.empty()) continue;
      CAPTURE(name, separator);
      const std::string written = oils::written_cell(name, separator);
      const auto table = oils::read_table(
          std::string("a") + separator + "b\nx" + separator + written + "\n", "t.csv");
      const std::string cell = table.rows.at(1).at(1).text;
      CHECK(std::string("=+-@\t\r").find(cell.front()) == std::string::npos);
      CHECK(oils::read_cell(cell) == name);
    }
  }
}
