// One test per way a record can be wrong: place, message and remedy.
#include "oils/records/record_reader.hpp"

#include <catch2/catch.hpp>
#include <string>

#include "oils/records/library.hpp"

using namespace barwright;
using Catch::Matchers::Contains;

namespace {

const std::string kGood = R"(oil: yard olive
also: [yard pressed olive]
inci: Olea Europaea Fruit Oil
once-saponified: Sodium Olivate
name-status: established
kind: triglyceride
tags: [vegan]
solid-at-25C: no
units: {acids: "% of fatty acids", saponification-value: mg KOH/g, iodine-value: g I2/100 g, unsaponifiable: "% of fat"}
sources: {mill: "Invented mill, invented certificate"}
acids:
  from: {source: mill, mark: certificate}
  C16:0: {typical: 12}
  C18:1: {typical: 78, low: 70, high: 80}
  C18:2: {typical: 10}
saponification-value: {typical: 190.2, low: 188, high: 192, source: mill, mark: certificate, range-source: codex-33, range-mark: recalled}
iodine-value: {typical: 84, low: 80, high: 88, source: mill, mark: certificate}
unsaponifiable: {typical: 1, low: 0.5, high: 1.5, source: mill, mark: certificate}
)";

const oils::Library& library() {
  static const oils::Library kept = oils::Library::embedded();
  return kept;
}

oils::Record read(const std::string& text) {
  return oils::read_record(oils::yaml::Document::from_text(text, "mine.yaml").root(), library());
}

std::string with(const std::string& from, const std::string& to) {
  std::string text = kGood;
  const auto at = text.find(from);
  INFO(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

/// Reads the good record with one thing changed; expects an error on `line`.
void refuses(const std::string& from, const std::string& to, int line, const std::string& message,
             const std::string& remedy) {
  INFO(from << " -> " << to);
  try {
    read(with(from, to));
    FAIL("taken without an error");
  } catch (const core::InputError& error) {
    CHECK(error.place().file == "mine.yaml");
    CHECK(error.place().line == line);
    CHECK(error.place().column > 0);
    CHECK_THAT(error.message(), Contains(message));
    CHECK_THAT(error.remedy(), Contains(remedy));
  }
}

}  // namespace

TEST_CASE("a whole record reads as it is written") {
  const oils::Record record = read(kGood);
  const oils::Oil& oil = record.oil;
  CHECK(oil.name == "yard olive");
  CHECK(oil.synonyms == std::vector<std::string>{"yard pressed olive"});
  CHECK(oil.form == oils::Form::triglyceride);
  CHECK_FALSE(oil.solid_at_25c);
  CHECK_FALSE(oil.saponified_name_by_analogy);
  CHECK(oil.saponification_value.span.low == 188);
  CHECK(oil.saponification_value.source == "mill");
  CHECK(oil.saponification_value.mark == core::Mark::certificate);
  CHECK(oil.saponification_value.range_source == "codex-33");
  CHECK(oil.saponification_value.range_mark == core::Mark::recalled);
  const auto& oleic = oil.acids[static_cast<std::size_t>(core::FattyAcid::C18_1)];
  REQUIRE(oleic);
  CHECK(oleic->span.high == 80);
  CHECK(oleic->source == "mill");
  const auto& palmitic = oil.acids[static_cast<std::size_t>(core::FattyAcid::C16_0)];
  CHECK(palmitic->span.low == 12);  // a certificate's figure stands alone
  CHECK(record.own_sources.size() == 1);
}

TEST_CASE("unknown and missing keys are refused") {
  refuses("inci:", "incy:", 3, "unknown key 'incy'", "inci");
  refuses("inci: Olea Europaea Fruit Oil\n", "", 1, "missing key 'inci'", "Add");
  refuses("{typical: 84, low: 80, high: 88,", "{typicl: 84, low: 80, high: 88,", 17,
          "unknown key 'typicl'", "typical");
  refuses("solid-at-25C: no", "solid-at-25C: no\ninci: again", 9, "a second time", "line 3");
  refuses("iodine-value: {typical: 84, low: 80, high: 88, source: mill, mark: certificate}\n", "",
          1, "missing key 'iodine-value'", "Add");
}

TEST_CASE("sources and marks are needed and known") {
  refuses("high: 88, source: mill, mark: certificate", "high: 88, mark: certificate", 17,
          "missing key 'source'", "source");
  refuses("high: 88, source: mill, mark: certificate", "high: 88, source: mill", 17,
          "missing key 'mark'", "mark");
  refuses("high: 88, source: mill", "high: 88, source: codex-211x", 17,
          "no source is called 'codex-211x'", "codex-211");
  refuses("high: 88, source: mill, mark: certificate", "high: 88, source: mill, mark: red", 17,
          "'red'", "'read'");
  refuses("range-source: codex-33, range-mark: recalled", "range-source: codex-33", 16,
          "missing key 'range-mark'", "range-mark");
  refuses("range-source: codex-33, range-mark: recalled", "range-mark: recalled", 16,
          "without 'range-source'", "source");
  refuses("{typical: 10}", "{typical: 10, mark: read}", 15, "without 'source'", "source");
}

TEST_CASE("units are needed and are the ones read") {
  refuses("iodine-value: g I2/100 g, ", "", 17, "'iodine-value' has no unit", "g I2/100 g");
  refuses("saponification-value: mg KOH/g", "saponification-value: mg NaOH/g", 9,
          "not in 'mg NaOH/g'", "mg KOH/g");
  refuses("units: {acids", "units: {acid", 9, "unknown key 'acid'", "acids");
}

TEST_CASE("figures that cannot be are refused") {
  refuses("typical: 84,", "typical: .nan,", 17, "not a number", "");
  refuses("typical: 84,", "typical: .inf,", 17, "not a number", "");
  refuses("typical: 84,", "typical: eighty,", 17, "not a number", "");
  refuses("typical: 84,", "typical: 90,", 17, "typical 90 is outside its range, 80 to 88",
          "Correct");
  refuses("low: 80, high: 88", "low: 88, high: 80", 17, "low 88 is above high 80", "Swap");
  refuses("low: 80, high: 88", "low: 80", 17, "missing key 'high'", "high");
  refuses("typical: 190.2, low: 188, high: 192", "typical: 1902, low: 188, high: 192", 16,
          "1902 cannot be", "unit");
  refuses("low: 80, high: 88, source: mill, mark: certificate", "source: codex-33, mark: recalled",
          17, "missing keys 'low' and 'high'", "range");
  refuses("C18:2: {typical: 10}", "C18:2: {typical: -10}", 15, "-10 cannot be", "");
}

TEST_CASE("acids must sum to 100 and be known") {
  refuses("C18:2: {typical: 10}", "C18:2: {typical: 10.2}", 12, "sum to 100.20 %", "scale");
  CHECK_NOTHROW(read(with("C18:2: {typical: 10}", "C18:2: {typical: 10.1}")));
  refuses("C18:2:", "C18:12:", 15, "no fatty acid is written 'C18:12'", "C18:1");
  refuses("C18:2: {typical: 10}", "C18:1: {typical: 10}", 15, "a second time", "");
  refuses(
      "acids:\n  from: {source: mill, mark: certificate}\n  C16:0: {typical: 12}\n  C18:1: "
      "{typical: 78, low: 70, high: 80}\n  C18:2: {typical: 10}\n",
      "", 1, "missing key 'acids'", "");
}

TEST_CASE("a wax may have no acids, and a triglyceride may not") {
  const std::string block =
      "acids:\n  from: {source: mill, mark: certificate}\n  C16:0: {typical: 12}\n  C18:1: "
      "{typical: 78, low: 70, high: 80}\n  C18:2: {typical: 10}\n";
  std::string text = with("kind: triglyceride", "kind: wax");
  text.erase(text.find(block), block.size());
  const oils::Record record = read(text);
  CHECK(record.oil.form == oils::Form::wax);
  CHECK_FALSE(record.oil.has_acids());
  CHECK_FALSE(oils::saponification_value_from_acids(record.oil));
}

TEST_CASE("words from fixed lists are checked") {
  refuses("kind: triglyceride", "kind: triglycerid", 6, "'triglycerid'", "'triglyceride'");
  refuses("tags: [vegan]", "tags: [vegn]", 7, "no tag is called 'vegn'", "'vegan'");
  refuses("tags: [vegan]", "tags: [vegan, vegan]", 7, "stands twice", "one");
  refuses("tags: [vegan]", "tags: [vegan, dairy]", 7, "both vegan and of an animal", "");
  refuses("solid-at-25C: no", "solid-at-25C: soft", 8, "neither yes nor no", "yes or no");
  refuses("name-status: established", "name-status: maybe", 5, "'maybe'", "formed by analogy");
  refuses("oil: yard olive", "oil: ''", 1, "nothing stands here", "");
  refuses("[yard pressed olive]", "['']", 2, "an empty name", "");
}

TEST_CASE("tags bring what they imply") {
  const oils::Record record = read(with("tags: [vegan]", "tags: [dairy]"));
  CHECK(record.oil.has_tag("animal"));
  CHECK(record.oil.has_tag("dairy"));
}
