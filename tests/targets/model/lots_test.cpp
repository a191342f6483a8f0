// What lots of an oil can be: the worst lot, and lots drawn.
#include "targets/model/lots.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "oils/records/library.hpp"
#include "targets/model/model.hpp"

using namespace barwright;
using targets::Composition;
using targets::LotRange;
using targets::Weights;

namespace {

double acid_sum(const Composition& lot) {
  return std::accumulate(lot.acids.begin(), lot.acids.end(), 0.0);
}

bool inside(const LotRange& range, const Composition& lot) {
  constexpr double kHair = 1e-12;
  for (std::size_t k = 0; k < core::kFattyAcidCount; ++k)
    if (lot.acids[k] < range.low[k] - kHair || lot.acids[k] > range.high[k] + kHair) return false;
  return lot.unsaponifiable >= range.unsaponifiable_low - kHair &&
         lot.unsaponifiable <= range.unsaponifiable_high + kHair;
}

/// The least of weights . acids over every corner of the range: each acid at an end of its range
/// but one, which makes the sum whole.
double least_corner(const LotRange& range, const Weights& weights) {
  std::vector<std::size_t> varied;
  double fixed = 0, left = acid_sum(range.typical);
  for (std::size_t k = 0; k < core::kFattyAcidCount; ++k) {
    if (range.high[k] > range.low[k]) {
      varied.push_back(k);
    } else {
      fixed += weights[k] * range.low[k];
      left -= range.low[k];
    }
  }
  if (varied.empty()) return fixed;
  double least = INFINITY;
  for (std::size_t free = 0; free < varied.size(); ++free) {
    for (std::size_t ends = 0; ends < (std::size_t{1} << varied.size()); ++ends) {
      if ((ends >> free) & 1U) continue;
      double value = fixed, rest = left;
      for (std::size_t v = 0; v < varied.size(); ++v) {
        if (v == free) continue;
        const double acid = ((ends >> v) & 1U) ? range.high[varied[v]] : range.low[varied[v]];
        value += weights[varied[v]] * acid;
        rest -= acid;
      }
      const std::size_t k = varied[free];
      if (rest < range.low[k] - 1e-12 || rest > range.high[k] + 1e-12) continue;
      least = std::min(least, value + weights[k] * rest);
    }
  }
  return least;
}

}  // namespace

TEST_CASE("the worst lot is the least of all corners of the published ranges", "[lots]") {
  const oils::Library library = oils::Library::embedded();
  const auto model = targets::PropertyModel::embedded();
  int compared = 0;
  for (const auto& oil : library.oils()) {
    const LotRange range = targets::lot_range(oil);
    int varied = 0;
    for (std::size_t k = 0; k < core::kFattyAcidCount; ++k) varied += range.high[k] > range.low[k];
    if (varied > 12) continue;
    for (const auto property : {targets::Property::hardness, targets::Property::lather,
                                targets::Property::conditioning, targets::Property::keeping}) {
      Weights weights = model.form(property, {}).linear;
      weights[targets::kUnsaponifiable] = 0;
      const Composition worst = targets::extreme_lot(range, weights, false);
      CHECK(inside(range, worst));
      CHECK(acid_sum(worst) == Approx(acid_sum(range.typical)).epsilon(1e-12));
      CHECK(targets::weigh(weights, worst) ==
            Approx(least_corner(range, weights) + weights[targets::kWax] * worst.wax +
                   weights[targets::kFreeAcid] * worst.free_acid +
                   weights[targets::kHardWax] * worst.hard_wax +
                   weights[targets::kLard] * worst.lard)
                .epsilon(1e-10)
                .margin(1e-12));
      Weights turned = weights;
      for (double& w : turned) w = -w;
      CHECK(targets::weigh(weights, targets::extreme_lot(range, weights, true)) ==
            Approx(-targets::weigh(turned, targets::extreme_lot(range, turned, false)))
                .epsilon(1e-12));
      ++compared;
    }
  }
  CHECK(compared > 200);
}

TEST_CASE("drawn lots stay within the ranges and sum to the whole", "[lots]") {
  const oils::Library library = oils::Library::embedded();
  std::mt19937_64 bits(7);
  for (const auto& oil : library.oils()) {
    const LotRange range = targets::lot_range(oil);
    for (int draw = 0; draw < 50; ++draw) {
      const Composition lot = targets::draw_lot(range, bits);
      REQUIRE(inside(range, lot));
      REQUIRE(acid_sum(lot) == Approx(acid_sum(range.typical)).margin(1e-12));
    }
  }
}

TEST_CASE("a sample of lots says how far a score strays, and no further than the worst lot",
          "[lots]") {
  const oils::Library library = oils::Library::embedded();
  const auto model = targets::PropertyModel::embedded();
  const Weights weights = model.form(targets::Property::hardness, {}).linear;
  for (const auto& oil : library.oils()) {
    const LotRange range = targets::lot_range(oil);
    const targets::LotSample sample(oil, range);
    const auto low = sample.spread(weights, 0.95, false);
    const double worst = targets::weigh(weights, targets::extreme_lot(range, weights, false));
    const double best = targets::weigh(weights, targets::extreme_lot(range, weights, true));
    CHECK(low.mean >= worst - 1e-9);
    CHECK(low.mean <= best + 1e-9);
    CHECK(low.size <= best - worst + 1e-9);
    CHECK(targets::weigh(weights, sample.mean()) == Approx(low.mean).epsilon(1e-9));
  }
}

TEST_CASE("lots kept of a name are those of its own figures, not of another record of it",
          "[lots]") {
  const oils::Library library = oils::Library::embedded();
  const oils::Oil first = *library.find("olive");
  oils::Oil second = *library.find("coconut");
  second.name = first.name;
  const auto mean = [](const oils::Oil& oil) {
    return targets::LotSample(oil, targets::lot_range(oil)).mean().acids;
  };
  const auto of_first = mean(first), of_second = mean(second);
  CHECK(of_first != of_second);
  CHECK(mean(first) == of_first);
  // What no acid says counts too.
  targets::LotRange hard = targets::lot_range(first);
  hard.typical.hard_wax = 0.5;
  CHECK(targets::LotSample(first, hard).mean().hard_wax == 0.5);
}

TEST_CASE("deviations are those of the normal law", "[lots]") {
  // Abramowitz and Stegun 1964, table 26.6 (recalled): 10 %, 5 %, 2.5 % and 1 % points.
  CHECK(targets::deviations(0.90) == Approx(1.28155).margin(5e-6));
  CHECK(targets::deviations(0.95) == Approx(1.64485).margin(5e-6));
  CHECK(targets::deviations(0.975) == Approx(1.95996).margin(5e-6));
  CHECK(targets::deviations(0.99) == Approx(2.32635).margin(5e-6));
}

TEST_CASE("a figure's spread keeps the share by itself, whichever way the span leans", "[lots]") {
  for (const core::Span span : {core::Span{180, 190, 200}, core::Span{180, 181, 200},
                                core::Span{180, 199, 200}, core::Span{190, 190, 190}}) {
    const auto low = targets::figure_spread(span, 0.95, false);
    std::mt19937_64 bits(3);
    int below = 0;
    for (int draw = 0; draw < 20000; ++draw)
      below += targets::draw_figure(span, bits) <
               low.mean - targets::deviations(0.95) * low.size - 1e-12;
    CHECK(below <= 0.055 * 20000);
    if (span.high > span.low) CHECK(low.size > 0);
  }
}
