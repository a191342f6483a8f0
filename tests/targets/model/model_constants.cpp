#include <catch2/catch.hpp>

#include "core/units/error.hpp"
#include "targets/model/coefficients.hpp"
#include "targets/model/constants_reader.hpp"
#include "tests/targets/model/model_testing.hpp"

using namespace barwright;
using namespace barwright::targets;
using namespace barwright::targets::testing;

namespace {

std::string edited(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

std::string message(const std::string& model) {
  try {
    read_constants(model, embedded_text("model_sources.yaml"), embedded_text("titres.yaml"));
  } catch (const core::InputError& error) {
    CHECK(error.place().file == "model.yaml");
    CHECK(error.place().line > 0);
    return error.what();
  }
  return "";
}

}  // namespace

TEST_CASE("every constant has unit, source, mark and reason", "[model]") {
  const auto model = PropertyModel::embedded();
  REQUIRE(model.constants().size() == kConstantCount);
  for (const Constant& constant : model.constants()) {
    if (!constant.used) continue;
    INFO(constant.key);
    CHECK_FALSE(constant.unit.empty());
    CHECK_FALSE(constant.source.empty());
    CHECK_FALSE(constant.why.empty());
    // A figure of ours is never marked as read, and a source's figure never as ours.
    CHECK_FALSE((constant.source == "own" && constant.mark == core::Mark::read));
    if (constant.spread.kind == Spread::Kind::none) continue;
    CHECK((constant.acid || !constant.about.empty()));
    const double low = constant.at(0), high = constant.at(1);
    CHECK(low <= constant.value);
    CHECK(constant.value <= high);
  }
}

TEST_CASE("the reader of constants is strict", "[model]") {
  const std::string good = embedded_text("model.yaml");
  CHECK(message(good).empty());
  CHECK_THAT(message(edited(good, "cure-shift:", "cure-shifd:")), Catch::Contains("cure-shif"));
  CHECK_THAT(message(edited(good, "source: thermochim-2001", "source: thermochim")),
             Catch::Contains("unknown source 'thermochim'"));
  CHECK_THAT(message(edited(good, "mark: recalled", "mark: sure")),
             Catch::Contains("unknown mark"));
  CHECK_THAT(message(edited(good, "value: 40, unit: mM, ", "value: 40, ")),
             Catch::Contains("unit"));
  CHECK_THAT(message(edited(good, "value: 40, unit: mM", "value: .nan, unit: mM")),
             Catch::Contains(".nan"));
  CHECK_THAT(message(edited(good, "between: [0.3, 0.7]", "between: [0.6, 0.7]")),
             Catch::Contains("outside its own spread"));
  CHECK_THAT(message(edited(good, "spread: {relative: 0.2}", "spread: {relative: 2}")),
             Catch::Contains("cannot be"));
  CHECK_THAT(message(edited(good, "spread: {factor: 1.65}", "spread: {facto: 1.65}")),
             Catch::Contains("facto"));
  CHECK_THAT(message(edited(good, "\"C20:1\": {value: 43,", "\"C20:9\": {value: 43,")),
             Catch::Contains("C20:9"));
  CHECK_THAT(message(edited(good, "spread: {choices: 3}", "spread: {choices: 2}")),
             Catch::Contains("as many sets"));
}

TEST_CASE("a chain at its melting point saturates nothing", "[model]") {
  CHECK(saturation(50, 40, 40) == 1);
  CHECK(saturation(50, 41, 40) == 1);
  // exp(-(50000/8.314462618)(1/298.15 - 1/333.15)), worked by hand: 0.12015
  CHECK(saturation(50, 25, 60) == Approx(0.12015).margin(5e-6));
}

TEST_CASE("coefficients follow from the constants", "[model]") {
  // Moving one constant moves what rests on it and nothing else.
  const auto model = PropertyModel::embedded();
  const auto at = index(Table::concentrated_point, core::FattyAcid::C20_1);
  const auto moved = model.with(at, model.constant(at) + 5);
  const Composition gondoic = of_acids({{"C20:1", 100}});
  CHECK(moved.value(Property::hardness, gondoic, {}) >
        model.value(Property::hardness, gondoic, {}) + 3);
  CHECK(moved.value(Property::lather, gondoic, {}) == model.value(Property::lather, gondoic, {}));
  CHECK(moved.value(Property::hardness, fat("palm"), {}) ==
        model.value(Property::hardness, fat("palm"), {}));
}

TEST_CASE("a bar's water falls from what was poured to what a cured bar keeps", "[model]") {
  const auto table =
      read_constants(embedded_text("model.yaml"), embedded_text("model_sources.yaml"),
                     embedded_text("titres.yaml"));
  ConstantValues values;
  for (const Constant& constant : table->constants) values.values.push_back(constant.value);
  // 0.1287 g NaOH and 0.2613 g water per g of oil at 33 % lye: 0.2613 / 1.39 = 0.188.
  CHECK(bar_water(values, 0.33, 0) == Approx(0.188).margin(5e-4));
  CHECK(bar_water(values, 0.33, 42) == Approx(0.11).margin(1e-12));
  CHECK(bar_water(values, 0.25, 0) > bar_water(values, 0.33, 0));
  CHECK(drying_shift(values, bar_water(values, 0.33, 1)) == Approx(0).margin(1e-12));
  CHECK(drying_shift(values, 0.11) == Approx(20).margin(1e-12));
}
