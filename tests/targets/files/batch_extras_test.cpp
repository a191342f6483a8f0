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
