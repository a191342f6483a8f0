#include <catch2/catch.hpp>

#include "oils/books/journal.hpp"
#include "oils/text/yaml.hpp"

using namespace barwright;
using Catch::Matchers::Contains;

namespace {

const std::string kHead = "date,event,batch,part,what,lot,grams,asked,bars,money,until,note";
const std::string kLine = "2027-01-01,noted,slipway,,,,,,,,,soda ash\n";

void read_yaml(const std::string& text) {
  oils::yaml::Document::from_text(text, "f.yaml").root().only({"name"});
}

}  // namespace

TEST_CASE("a file may state its format; a newer one is not guessed at") {
  read_yaml("name: x\n");
  read_yaml("name: x\nformat: 1\n");
  CHECK_THROWS_WITH(read_yaml("name: x\nformat: 3\n"),
                    Contains("f.yaml:2:9:") && Contains("written for a newer barwright"));
  for (const char* other : {"0", "-1", "1.5", "new", "{a: 1}", ""}) {
    CAPTURE(other);
    CHECK_THROWS_AS(read_yaml("name: x\nformat: " + std::string(other) + "\n"), core::InputError);
  }
  // Only the file as a whole has one.
  CHECK_THROWS_WITH(
      oils::yaml::Document::from_text("a: {format: 1}\n", "f.yaml").root().need("a").only({"b"}),
      Contains("unknown key 'format'"));
}

TEST_CASE("a journal states its format in its header; one without is read, a newer one is not") {
  const oils::Journal none = oils::read_journal("", "j.csv");
  oils::Entry entry = oils::entry_of(*core::find_day("2027-01-01"), oils::Event::noted, "slipway");
  entry.note = "soda ash";
  const std::string fresh = oils::appended(none, std::vector{entry});
  CHECK(fresh == kHead + ",format-1\n" + kLine);
  CHECK(oils::read_journal(fresh, "j.csv").entries.size() == 1);
  // A journal goes on as it was begun, wherever the column stands.
  for (const std::string& head : {kHead, kHead + ",format-1", "format-1," + kHead}) {
    const std::string begun = head + "\n" + (head.starts_with("format") ? "," : "") + kLine;
    const std::string more = oils::appended(oils::read_journal(begun, "j.csv"), std::vector{entry});
    CHECK(more.starts_with(begun));
    CHECK(oils::read_journal(more, "j.csv").entries.size() == 2);
    CHECK(oils::read_journal(more, "j.csv").entries[1].note == "soda ash");
  }
  CHECK_THROWS_WITH(oils::read_journal(kHead + ",format-3\n" + kLine, "j.csv"),
                    Contains("j.csv:1:66:") && Contains("written for a newer barwright"));
  CHECK_THROWS_AS(oils::read_journal(kHead + ",format-x\n" + kLine, "j.csv"), core::InputError);
}

TEST_CASE(
    "a journal with a sheet in it says format 2 in its head, and nothing else of it changes") {
  oils::Entry sheet = oils::entry_of(*core::find_day("2027-01-02"), oils::Event::sheet, "slipway");
  sheet.what = "3fa2b1c0";
  sheet.bars = 7;
  sheet.note = "slipway-batch.yaml";
  const std::string row = "2027-01-02,sheet,slipway,,3fa2b1c0,,,,7,,,slipway-batch.yaml\n";
  CHECK(oils::appended(oils::read_journal("", "j.csv"), std::vector{sheet}) ==
        kHead + ",format-2\n" + row);
  const std::string notes = "2027-01-01,lost,slipway,,,,,,1,,,format-1\n";
  for (const auto& [before, after] : {std::pair{kHead, kHead + ",format-2"},
                                      {kHead + ",format-1", kHead + ",format-2"},
                                      {kHead + ",format-2", kHead + ",format-2"}}) {
    CAPTURE(before);
    const std::string more =
        oils::appended(oils::read_journal(before + "\n" + notes, "j.csv"), std::vector{sheet});
    CHECK(more == after + "\n" + notes + row);
    CHECK(oils::read_journal(more, "j.csv").entries.back().bars == 7);
  }
}
