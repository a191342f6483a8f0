// What single oils do besides their acids: linear in the shares, within the scale for a pure oil.
#include "targets/model/own_offsets.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "oils/records/library.hpp"
#include "targets/model/difference.hpp"
#include "targets/model/lots.hpp"
#include "targets/model/words.hpp"

using namespace barwright;
using namespace barwright::targets;
using P = Property;

namespace {

Composition oil(const std::string& name) {
  static const oils::Library library = oils::Library::embedded();
  return composition(*library.find(name));
}

PropertyModel with_steps(const std::string& name, P property, double steps) {
  const PropertyModel print = PropertyModel::embedded();
  OilOffsets::Of of{oil(name), {}};
  of.steps[static_cast<std::size_t>(property)] = steps;
  return print.at_values(print.values(), {{of}});
}

}  // namespace

TEST_CASE("an oil's own step moves a bar by its share of a step, and no other property") {
  const PropertyModel print = PropertyModel::embedded();
  const PropertyModel own = with_steps("olive pomace", P::hardness, 1.5);
  const std::vector<Composition> oils = {oil("olive pomace"), oil("coconut")};
  for (const double share : {0.0, 0.3, 0.7, 1.0}) {
    const std::vector<double> shares = {share, 1 - share};
    const Composition bar = mix(oils, shares);
    CHECK(own.value(P::hardness, bar, {}) - print.value(P::hardness, bar, {}) ==
          Approx(share * 1.5 * noticeable(P::hardness)).margin(1e-9));
    CHECK(own.value(P::lather, bar, {}) == print.value(P::lather, bar, {}));
  }
  CHECK(own.value(P::hardness, oil("olive"), {}) == print.value(P::hardness, oil("olive"), {}));
}

TEST_CASE("a bar of one oil stays within its scale whatever the oil does by itself") {
  for (const P property : all_properties()) {
    if (!PropertyModel::has_form(property)) continue;
    for (const double steps : {-100.0, 100.0}) {
      const double value =
          with_steps("coconut", property, steps).value(property, oil("coconut"), {});
      CAPTURE(name(property), steps);
      CHECK(value >= -1e-9);
      CHECK(value <= 100 + 1e-9);
    }
  }
}

TEST_CASE("of keeping and working time an oil's own step is a factor on its pace") {
  const PropertyModel print = PropertyModel::embedded();
  for (const P property : {P::keeping, P::working_time}) {
    const PropertyForm plain = print.form(property, {});
    const PropertyForm own = with_steps("olive", property, 2).form(property, {});
    CHECK(own.inner(oil("olive")) ==
          Approx(plain.inner(oil("olive")) * std::exp(-2 * noticeable(property) / 25)));
    // About one step of score per step: 25 points per unit of the logarithm at 50.
    CHECK(log_per_step(property) == noticeable(property) / 25);
  }
}

TEST_CASE("weights over lots see what an oil does by itself as the form does") {
  const PropertyForm form = with_steps("olive", P::thrift, -1).form(P::thrift, {});
  CHECK(form.constant + weigh(form.linear, oil("olive")) == Approx(form.inner(oil("olive"))));
  const oils::Library library = oils::Library::embedded();
  const LotRange range = lot_range(*library.find("olive"));
  const PropertyForm plain = PropertyModel::embedded().form(P::thrift, {});
  const double own = weigh(form.linear, extreme_lot(range, form.linear, false));
  const double print = weigh(plain.linear, extreme_lot(range, plain.linear, false));
  CHECK(own - print == Approx(-noticeable(P::thrift)));
}

TEST_CASE("notes make sure of what print is not only with three pours, and without any one") {
  const PropertyModel print = PropertyModel::embedded();
  const Composition bar = oil("olive pomace"), other = oil("olive");
  REQUIRE_FALSE(difference(print, print.readings(), P::hardness, bar, {}, other, {}).sure);
  const PropertyModel centre = with_steps("olive pomace", P::hardness, 3);
  std::vector<PropertyModel> readings(PropertyModel::kReadings, centre);
  // The first tenth says the other thing, but counts for little.
  const PropertyModel against = with_steps("olive pomace", P::hardness, -3);
  for (std::size_t r = 0; r < 10; ++r) readings[r] = against;
  const std::vector<double> even(PropertyModel::kReadings, 1.0);
  std::vector<double> leaning = even, lone(PropertyModel::kReadings, 0.0);
  for (std::size_t r = 0; r < 10; ++r) leaning[r] = 10;
  lone.back() = 1;
  const auto told = [&](std::vector<std::vector<double>> without) {
    const PropertyModel tuned = PropertyModel::tuned(centre, readings, {std::move(without)});
    return difference(tuned, tuned.readings(), P::hardness, bar, {}, other, {});
  };
  CHECK(told({even, even, even}).sure);
  CHECK_FALSE(told({even, even}).sure);
  CHECK(told({even, even}).too_few_pours);
  CHECK(told({even, leaning, even}).too_few_pours);
  CHECK(told({even, even, lone}).too_few_pours);
  // What print is sure of stays sure.
  CHECK(
      difference(PropertyModel::tuned(print, print.readings(), {{even}}), print.readings(),
                 P::hardness, oil("coconut"), {}, oil("olive"), {})
          .sure ==
      difference(print, print.readings(), P::hardness, oil("coconut"), {}, oil("olive"), {}).sure);
}
