#include "targets/files/notes.hpp"

#include <catch2/catch.hpp>

using namespace barwright;
using namespace barwright::targets;
using Catch::Matchers::Contains;

namespace {

const oils::Library& library() {
  static const oils::Library kept = oils::Library::embedded();
  return kept;
}

MakerNotes read(const std::string& text) {
  return read_notes_text(text, "notes.yaml", ".", library());
}

std::string refusal(const std::string& text) {
  try {
    read(text);
  } catch (const core::InputError& error) {
    return error.what();
  }
  return "taken";
}

// Invented.
const std::string kPours = R"(notes-of: Weighbridge Yard
pours:
  yard 1: {recipe: {blend: {olive: 60 %, coconut: 30 %, castor: 10 %}, superfat: 6 %}, made: 2027-01-04, lots: {olive: PO-3}}
  pomace 1: {recipe: {blend: {olive pomace: 60 %, coconut: 40 %}}, made: 2027-01-05}
  lard 1: {recipe: {blend: {lard: 100 %}}, made: 2027-02-01}
)";

}  // namespace

TEST_CASE("notes of hands and of means are read with the age of each bar") {
  const MakerNotes notes = read(kPours + R"(notes:
  - {compare: pomace 1, against: Yard-1, judged: 2027-02-20, blind: yes,
     hardness: a little softer, lather: [no difference, clearly more]}
  - {measure: grams lost, judged: 2027-03-01, session: the sink, how: 20 washes,
     found: {yard 1: 4.1 g, pomace 1: 0.16 oz}}
  - {measure: weeks until a spot, judged: 2027-03-02, found: {pomace 1: none yet, yard 1: 7 weeks}}
  - {measure: minutes to trace, judged: 2027-01-05, found: {pomace 1: 0.2 h}}
)");
  REQUIRE(notes.pours.size() == 3);
  CHECK(notes.pours[0].name == "yard 1");
  CHECK(notes.pours[0].lots == std::vector<std::pair<std::string, std::string>>{{"olive", "PO-3"}});
  CHECK(notes.pours[0].recipe.lye.superfat == Approx(0.06));
  REQUIRE(notes.comparisons.size() == 2);
  const ComparisonNote& hard = notes.comparisons[0];
  CHECK(hard.bar == 1);
  CHECK(hard.against == 0);
  CHECK(hard.property == Property::hardness);
  CHECK(hard.verdicts == std::vector{Verdict::little_less});
  CHECK(hard.blind);
  CHECK(hard.bar_days == 46);
  CHECK(hard.against_days == 47);
  CHECK(hard.written.place.line == 8);
  CHECK(notes.comparisons[1].verdicts ==
        std::vector{Verdict::no_difference, Verdict::clearly_more});
  REQUIRE(notes.measurements.size() == 3);
  CHECK(notes.measurements[0].means == Means::grams_lost);
  CHECK(notes.measurements[0].session == "the sink");
  CHECK(notes.measurements[0].readings[1].figure == Approx(4.5359237));
  CHECK(notes.measurements[0].readings[0].days == 56);
  CHECK(notes.measurements[1].readings[0].at_least);
  CHECK(notes.measurements[1].readings[0].figure == Approx(8));
  CHECK(notes.measurements[1].readings[1].figure == Approx(7));
  CHECK(notes.measurements[2].readings[0].figure == Approx(12));
  CHECK(notes.without_note() == std::vector<std::size_t>{2});
}

TEST_CASE("a notebook of pours without a note is read") {
  CHECK(read(kPours).without_note().size() == 3);
  CHECK(read(kPours + "notes: []\n").comparisons.empty());
}

TEST_CASE("every property that two bars are compared by takes its own words and plain ones") {
  for (const Property property : all_properties()) {
    const std::string key(name(property));
    const std::string text =
        kPours + "notes:\n  - {compare: yard 1, against: lard 1, judged: 2027-03-01, \"" + key +
        "\": a little less}\n";
    if (key == "titre" || key.starts_with("soluble")) {
      CHECK_THAT(refusal(text), Contains("is nothing that two bars are compared by"));
    } else {
      CHECK(read(text).comparisons[0].verdicts[0] == Verdict::little_less);
    }
  }
}

TEST_CASE("what is wrong with notes is told all at once, each at its line") {
  const std::string all = refusal(kPours + R"(notes:
  - {compare: pomace 2, against: yard 1, judged: 2027-02-20, hardness: clearly firmer}
  - {compare: pomace 1, against: yard 1, judged: 2027-02-20, hardnes: clearly firmer}
  - {compare: lard 1, against: yard 1, judged: 2027-01-20, hardness: clearly firmer}
  - {measure: grams lost, judged: 2027-02-20, found: {yard 1: 0 g, pomace 1: 3}}
  - {compare: yard 1, against: yard 1, judged: 2027-02-20, hardness: quite firm}
)");
  CHECK_THAT(all, Contains("notes.yaml:7:15: no pour is called 'pomace 2'"));
  CHECK_THAT(all, Contains("Did you mean 'pomace 1'?"));
  CHECK_THAT(all, Contains("notes.yaml:8:") && Contains("'hardnes' is nothing that two bars"));
  CHECK_THAT(all,
             Contains("notes.yaml:9:") &&
                 Contains("on 2027-01-20 'lard 1' was not made yet: it was poured on 2027-02-01"));
  CHECK_THAT(all, Contains("notes.yaml:10:") && Contains("the weight must be above zero"));
  CHECK_THAT(all, Contains("a bar is not compared with itself"));
  CHECK_THAT(all, Contains("unknown word 'quite firm'"));
}

TEST_CASE("a note must say which bars, when, and something of them") {
  const auto note = [](const std::string& line) {
    return refusal(kPours + "notes:\n  - " + line + "\n");
  };
  CHECK_THAT(note("{compare: yard 1, judged: 2027-03-01, hardness: clearly more}"),
             Contains("missing key 'against'"));
  CHECK_THAT(note("{compare: yard 1, against: lard 1, hardness: clearly more}"),
             Contains("missing key 'judged'"));
  CHECK_THAT(note("{compare: yard 1, against: lard 1, judged: 2027-03-01}"),
             Contains("says nothing of the two bars"));
  CHECK_THAT(note("{measure: smell, judged: 2027-03-01, found: {yard 1: 3 g}}"),
             Contains("unknown word 'smell'"));
  CHECK_THAT(note("{measure: weight, judged: 2027-03-01, found: {yard 1: none yet}}"),
             Contains("is said of spots alone"));
  CHECK_THAT(note("{measure: dent, judged: 2027-03-01, found: {yard 1: 3 g}}"), Contains("mm"));
  CHECK_THAT(note("{judged: 2027-03-01}"), Contains("compares two bars or measures some"));
  CHECK_THAT(refusal("pours:\n  a: {recipe: {blend: {olive: 100 %}}, made: 2027-13-01}\n"),
             Contains("is not a date"));
  CHECK_THAT(refusal("pours:\n  a: {recipe: none-such.yaml, made: 2027-01-01}\n"),
             Contains("there is no file"));
  CHECK_THAT(
      refusal(
          "pours:\n  a: {recipe: {blend: {olive: 100 %}}, made: 2027-01-01, lots: {palm: 3}}\n"),
      Contains("a lot of palm, which this recipe lacks"));
  CHECK_THAT(refusal("pours:\n  a 1: {recipe: {blend: {olive: 100 %}}, made: 2027-01-01}\n"
                     "  A-1: {recipe: {blend: {palm: 100 %}}, made: 2027-01-01}\n"),
             Contains("is called as 'a 1' is"));
}
