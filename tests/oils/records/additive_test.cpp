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
