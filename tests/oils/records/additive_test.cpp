#include <catch2/catch.hpp>
#include <string>

#include "core/units/error.hpp"
#include "oils/records/additives.hpp"

using namespace barwright;
using oils::Additives;

TEST_CASE("every additive says what its dose counts on, and where the figure is from",
          "[additives]") {
  const auto all = Additives::embedded();
  REQUIRE(all.all().size() >= 25);
  for (const auto& one : all.all()) {
    INFO(one.name);
    CHECK(one.dose.span.high > 0);
    CHECK_FALSE(one.dose.source.empty());
    CHECK_FALSE(one.when.empty());
    CHECK_FALSE(one.disperse.empty());
    if (one.kind == oils::AdditiveKind::colour) CHECK(one.basis == core::DoseBasis::batter);
    if (one.kind == oils::AdditiveKind::scent) CHECK(one.basis == core::DoseBasis::oils);
    if (one.holds && one.holds->fat > 0) CHECK(one.holds->fat_saponification_value.low > 150);
  }
}

TEST_CASE("an additive is found by any of its names", "[additives]") {
  const auto all = Additives::embedded();
  REQUIRE(all.find("Red iron oxide"));
  CHECK(all.find("Red iron oxide")->name == "iron oxide");
  CHECK(all.find("sodium-lactate syrup")->kind == oils::AdditiveKind::hardener);
  CHECK(all.find("glitter") == nullptr);
  CHECK(all.nearest("charcaol") == "charcoal");
}

TEST_CASE("an additive with no basis is pointed at", "[additives]") {
  const std::string text =
      "additives:\n"
      "  rye flour:\n"
      "    kind: grain\n"
      "    dose: {least: 5, usual: 15, most: 30, unit: g/kg, mark: practice, source: own}\n"
      "    when: at trace\n    disperse: stir\n    does: scrub\n    alkali: stable\n";
  Additives own;
  try {
    own.add_text(text, "mine.yaml");
    FAIL("taken without a basis");
  } catch (const core::InputError& error) {
    CHECK(error.place().line == 2);
    CHECK(error.place().column == 3);
    CHECK(error.message() == "the additive 'rye flour' has no basis: what is its dose counted on?");
    CHECK(error.remedy() == "Add 'basis: oils', 'basis: batter' or 'basis: water'.");
  }
}

TEST_CASE("a dose without unit, source or order is refused", "[additives]") {
  const auto with = [](const std::string& dose) {
    Additives own;
    own.add_text("additives:\n  rye:\n    kind: grain\n    basis: oils\n    dose: " + dose +
                     "\n    when: a\n    disperse: b\n    does: c\n    alkali: stable\n",
                 "mine.yaml");
  };
  CHECK_NOTHROW(with("{least: 1, usual: 2, most: 3, unit: g/kg, mark: practice, source: own}"));
  CHECK_THROWS_AS(with("{least: 1, usual: 2, most: 3, mark: practice, source: own}"),
                  core::InputError);
  CHECK_THROWS_AS(with("{least: 1, usual: 2, most: 3, unit: g/kg, mark: practice}"),
                  core::InputError);
  CHECK_THROWS_AS(with("{least: 3, usual: 2, most: 1, unit: g/kg, mark: practice, source: own}"),
                  core::InputError);
  CHECK_THROWS_AS(
      with("{least: 1, usual: 2, most: 3, unit: g/kg, mark: practice, source: nowhere}"),
      core::InputError);
}

TEST_CASE("liquids bring what they hold, and never more than all of themselves", "[additives]") {
  const auto all = Additives::embedded();
  for (const char* name : {"cow milk", "goat milk", "coconut milk", "oat milk", "beer", "red wine",
                           "aloe vera juice", "pumpkin puree", "sea water"}) {
    INFO(name);
    const auto* one = all.find(name);
    REQUIRE(one);
    REQUIRE(one->holds);
    const auto& holds = *one->holds;
    CHECK(holds.water > 0.5);
    CHECK(holds.water + holds.fat + holds.sugar + holds.salt + holds.alcohol <= 1);
    CHECK(holds.mark >= core::Mark::recalled);  // from memory, and says so
    CHECK((holds.alcohol > 0.005) == !one->before_lye.empty());
    if (holds.acid) CHECK(holds.acid->answer == core::AcidAnswer::let_superfat_rise);
  }
}

TEST_CASE("spoon weights, flash points and habits are marked and in order", "[additives]") {
  const auto all = Additives::embedded();
  CHECK(all.find("mica")->density->span.typical == Approx(0.45));
  for (const auto& one : all.all()) {
    INFO(one.name);
    if (one.kind == oils::AdditiveKind::colour) CHECK(one.density);
    for (const auto& figure : {one.density, one.flash_celsius}) {
      if (!figure) continue;
      CHECK(figure->span.low <= figure->span.typical);
      CHECK(figure->span.typical <= figure->span.high);
      CHECK_FALSE(figure->source.empty());
    }
  }
  CHECK(all.find("clove bud oil")->behaves.at("thickens") == "fast");
  CHECK(all.find("vanilla fragrance")->behaves.at("colours") == "brown");
  CHECK(all.find("kaolin")->behaves.empty());
}

TEST_CASE("what a record holds is read strictly", "[additives]") {
  const auto with = [](const std::string& more) {
    Additives own;
    own.add_text(
        "additives:\n  rye:\n    kind: liquid\n    basis: water\n"
        "    dose: {least: 1, usual: 2, most: 3, unit: g/kg, mark: practice, source: own}\n"
        "    when: a\n    disperse: b\n    does: c\n    alkali: stable\n    " +
            more + "\n",
        "mine.yaml");
  };
  const std::string marks = ", mark: recalled, source: own}";
  CHECK_NOTHROW(with("holds: {water: 90 %, alcohol: 5 %, acid: {lactic: 1 %}" + marks));
  CHECK_THROWS_AS(with("holds: {water: 90 %, alcohol: 15 %" + marks), core::InputError);
  CHECK_THROWS_AS(with("holds: {water: 90 %, acid: {malic: 1 %}" + marks), core::InputError);
  CHECK_THROWS_AS(with("holds: {water: 90 %, acid: {lactic: 1 %, citric: 1 %}" + marks),
                  core::InputError);
  CHECK_THROWS_AS(with("density: {g-per-ml: [0.5, 0.4, 0.6]" + marks), core::InputError);
  CHECK_THROWS_AS(with("density: {g-per-ml: [0.4, 0.5]" + marks), core::InputError);
  CHECK_THROWS_AS(with("flash: {celsius: [60, 65, 70], source: own}"), core::InputError);
  CHECK_THROWS_AS(with("behaves: {sings: loud}"), core::InputError);
}
