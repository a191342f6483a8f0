#include <catch2/catch.hpp>

#include "core/units/error.hpp"
#include "targets/files/batch_file.hpp"

using namespace barwright;
using namespace barwright::targets;

namespace {

const oils::Library& library() {
  static const oils::Library embedded = oils::Library::embedded();
  return embedded;
}

BatchFile batch(const std::string& body, const std::string& top = {}) {
  return read_batch_text("batch: ferry\nmoulds: [{volume: 900 mL}]\n" + top +
                             "parts:\n  body:\n    blend: {olive: 70 %, coconut: 30 %}\n" + body,
                         "ferry.yaml", "", library());
}

std::string refused(const std::string& body, const std::string& top = {}) {
  try {
    batch(body, top);
  } catch (const core::InputError& error) {
    return error.message();
  }
  return "taken";
}

}  // namespace

TEST_CASE("colours without shares are equal; some with and some without are asked", "[batch]") {
  const auto equal = batch("    colours: [{name: a}, {name: b}, {name: c}]\n");
  for (const auto& colour : equal.parts[0].colours) CHECK(colour.share == Approx(1.0 / 3));
  CHECK(refused("    colours: [{name: a, share: 100 %}, {name: b}]\n") ==
        "the colour 'b' has no share, but others have");
}

TEST_CASE("embeds say their lot; samples, start and additives are read", "[batch]") {
  CHECK(refused("    embeds: [{name: stars, grams: 80 g}]\n") ==
        "the embeds 'stars' do not say which lot they came from");
  const auto read = batch(
      "    embeds: [{name: stars, grams: 80 g, from-lot: Y-12}]\n"
      "    additives: [{kaolin: 12 g per kg oils}, {mica: 4 g per kg batter}]\n",
      "samples: {count: 2, each: 20 g}\nstart: 9:15\nleft-in-pot: 2 %\n");
  CHECK(read.parts[0].embeds[0].lot == "Y-12");
  CHECK(read.parts[0].additives[1].dose.basis == Basis::per_kg_batter);
  CHECK(read.samples->count == 2);
  CHECK(*read.start_hours == Approx(9.25));
  CHECK(read.left_in_pot == Approx(0.02));
  CHECK(refused("    additives: [{kaolin: 12 g}]\n") ==
        "'12 g': for the whole batch, per bar or per kg of oils?");
  CHECK(refused("", "start: 25:00\n") == "'25:00' is no time of day");
}

TEST_CASE("a premix saponifies as what is in it", "[batch]") {
  const auto read = batch("", "premixed:\n  house: {olive: 60 %, castor: 40 %}\n");
  const auto with = with_premixes(library(), read.premixes);
  const auto& mix = *with.find("house");
  const auto& olive = *with.find("olive");
  const auto& castor = *with.find("castor");
  CHECK(mix.saponification_value.span.typical ==
        Approx(0.6 * olive.saponification_value.span.typical +
               0.4 * castor.saponification_value.span.typical));
  CHECK(mix.saponification_value.span.low == Approx(0.6 * olive.saponification_value.span.low +
                                                    0.4 * castor.saponification_value.span.low));
  CHECK(refused("", "premixed:\n  olive: {olive: 60 %, castor: 40 %}\n") ==
        "'olive' is an oil's name already");
}

TEST_CASE("doses by the spoon are teaspoons, of batter or oils, never of lye", "[batch]") {
  const auto dose = [](const std::string& text) {
    return batch("    additives: [{kaolin: " + text + "}]\n").parts[0].additives[0].dose;
  };
  CHECK(dose("1 tsp per lb oils").teaspoons);
  CHECK(dose("1 tsp per lb oils").basis == Basis::per_kg_oils);
  CHECK(dose("1 tsp per lb oils").value == Approx(1000 / 453.59237));  // the pound by definition
  CHECK(dose("2 tablespoons in all").value == Approx(6));
  CHECK(dose("1 teaspoon per pound of batter").basis == Basis::per_kg_batter);
  CHECK_FALSE(dose("5 g per lb oils").teaspoons);
  CHECK(dose("5 g per lb oils").value == Approx(5000 / 453.59237));
  CHECK(batch("    additives: [{kaolin: 2 tsp in all, spoon-weighs: 3 g}]\n")
            .parts[0]
            .additives[0]
            .spoon_grams == 3.0);
  CHECK(refused("    liquids: [{goat milk: 2 tbsp in all}]\n") ==
        "what meets the lye is weighed, never spooned: 'goat milk'");
  CHECK(refused("    additives: [{kaolin: 2 cups in all}]\n") != "taken");
}

TEST_CASE("embeds are weighed or measured", "[batch]") {
  const auto embed = [](const std::string& size) {
    return batch("    embeds: [{name: core, " + size + ", from-lot: A-1}]\n").parts[0].embeds[0];
  };
  // A rod of 250 mm and 40 mm across: pi x 20 x 20 x 250 mm = 314.2 mL.
  CHECK(embed("round: [250 mm, 40 mm]").volume_ml == Approx(314.159).margin(0.01));
  CHECK(embed("box: [10 cm, 20 mm, 20 mm], count: 3").volume_ml == Approx(120));
  CHECK(embed("volume: 60 mL").volume_ml == Approx(60));
  CHECK(embed("volume: 60 mL").grams == 62);  // 1.03 g/mL, judgement, whole grams
  CHECK(embed("grams: 103 g").volume_ml == Approx(100));
  CHECK_FALSE(embed("grams: 103 g").by_volume);
  CHECK(refused("    embeds: [{name: core, from-lot: A-1}]\n") ==
        "how much are the embeds 'core'?");
  CHECK(refused("    embeds: [{name: core, round: [250 mm], from-lot: A-1}]\n") != "taken");
  CHECK(refused("    embeds: [{name: core, grams: 5 g, count: 2, from-lot: A-1}]\n") ==
        "grams and a volume are of all of them together");
}
