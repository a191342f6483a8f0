#include "solver/tune/hands.hpp"

#include <algorithm>
#include <cmath>

#include "solver/tune/latent.hpp"
#include "targets/model/own_offsets.hpp"

namespace barwright::tune {

using targets::Means;
using targets::Property;
using targets::Verdict;

namespace {

// All figures of this block are judgement: no trial of how makers judge bars was found.
constexpr double kHandNoise = 0.5;      // steps, median
constexpr double kFirstCut = 0.5;       // steps up to which hands say "no difference", median
constexpr double kSecondCut = 0.7;      // from there to "clearly", median
constexpr double kCutSpread = 0.4;      // of their logarithms
constexpr double kOrderBias = 0.2;      // steps for the bar named first
constexpr double kSlip = 0.05;          // share of slips, median
constexpr double kNotBlindNoise = 0.4;  // steps, median
constexpr double kExpectation = 0.3;    // steps per step expected, half-normal
constexpr double kFigureNoise = 0.5;    // steps, median
constexpr double kFigureSpread = 0.6;   // of its logarithm

enum Hand { noise, first_cut, second_cut, order_bias, slip, not_blind, expectation };

double slip_share(double z) { return 1 / (1 + std::exp(std::log((1 - kSlip) / kSlip) - 0.7 * z)); }

}  // namespace

Link link_of(Means means) {
  switch (means) {
    case Means::grams_lost:
      return {5, -0.12, 0.5};
    case Means::hours_until_cut:
      return {24, -0.15, 0.6};
    case Means::minutes_to_trace:
      return {10, targets::log_per_step(Property::working_time), 0.3};
    case Means::minutes_too_thick:
      return {20, targets::log_per_step(Property::working_time), 0.3};
    case Means::weight:
      return {100, kDryingStep, 0};
    case Means::dent:
      return {3, -0.15, 0.6};
    case Means::foam:
      return {60, 0.12, 0.6};
    case Means::weeks_until_spot:
      return {52, targets::log_per_step(Property::keeping), 0.3};
  }
  return {1, 1, 0};
}

Hands hands_of(std::span<const double> hands, std::span<const double> means) {
  Hands out;
  out.blind = log_normal(hands[noise], kHandNoise, 0.5);
  out.seen = std::hypot(out.blind, log_normal(hands[not_blind], kNotBlindNoise, 0.5));
  out.first = log_normal(hands[first_cut], kFirstCut, kCutSpread);
  out.second = out.first + log_normal(hands[second_cut], kSecondCut, kCutSpread);
  out.slips = slip_share(hands[slip]);
  out.bias = kOrderBias * hands[order_bias];
  out.expects = kExpectation * half_normal(hands[expectation]);
  for (std::size_t m = 0; m < targets::kMeansCount; ++m) {
    const Link link = link_of(static_cast<Means>(m));
    out.off[m] = log_normal(means[kMeansUnknowns * m + 1], kFigureNoise, kFigureSpread);
    out.slope[m] = link.slope * std::exp(link.spread * means[kMeansUnknowns * m]);
    out.unit[m] = std::abs(out.slope[m]) * out.off[m];
  }
  return out;
}

double chance_of(Verdict verdict, double middle, double noise, const Hands& hands) {
  // Cuts at -second, -first, first, second.
  const double first = hands.first, second = hands.second;
  double steady = 0;
  switch (verdict) {
    case Verdict::clearly_less:
      steady = normal_share((-second - middle) / noise);
      break;
    case Verdict::little_less:
      steady = normal_share((-first - middle) / noise) - normal_share((-second - middle) / noise);
      break;
    case Verdict::no_difference:
      steady = normal_share((first - middle) / noise) - normal_share((-first - middle) / noise);
      break;
    case Verdict::little_more:
      steady = normal_share((middle - first) / noise) - normal_share((middle - second) / noise);
      break;
    case Verdict::clearly_more:
      steady = normal_share((middle - second) / noise);
      break;
  }
  return (1 - hands.slips) * std::max(steady, 0.0) + hands.slips / targets::kVerdictCount;
}

Verdict verdict_on(double felt, const Hands& hands) {
  return felt < -hands.second   ? Verdict::clearly_less
         : felt < -hands.first  ? Verdict::little_less
         : felt <= hands.first  ? Verdict::no_difference
         : felt <= hands.second ? Verdict::little_more
                                : Verdict::clearly_more;
}

}  // namespace barwright::tune
