#include "targets/model/lots.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
#include <numeric>
#include <stdexcept>
#include <string>

#include "core/units/seeded.hpp"

namespace barwright::targets {
namespace {

double triangular(double low, double peak, double high, double u) {
  if (!(high > low)) return peak;
  const double rise = (peak - low) / (high - low);
  return u < rise ? low + std::sqrt(u * (high - low) * (peak - low))
                  : high - std::sqrt((1 - u) * (high - low) * (high - peak));
}

double clamp_spread(double mean, double deviation, double tail, double share, bool most) {
  const double off = most ? tail - mean : mean - tail;
  return std::max(deviation, off / deviations(share));
}

}  // namespace

LotRange lot_range(const oils::Oil& oil) {
  LotRange out;
  out.typical = composition(oil);
  out.low = out.high = out.typical.acids;
  out.unsaponifiable_low = out.unsaponifiable_high = out.typical.unsaponifiable;
  if (oil.form == oils::Form::wax) return out;  // scored as wax, whatever its acids
  for (std::size_t k = 0; k < core::kFattyAcidCount; ++k) {
    if (!oil.acids[k]) continue;
    out.low[k] = std::min(out.low[k], oil.acids[k]->span.low / 100);
    out.high[k] = std::max(out.high[k], oil.acids[k]->span.high / 100);
  }
  const core::Span& matter = oil.unsaponifiable.span;
  out.unsaponifiable_low = std::min(out.unsaponifiable_low, matter.low / 100);
  out.unsaponifiable_high = std::max(out.unsaponifiable_high, matter.high / 100);
  return out;
}

Composition extreme_lot(const LotRange& range, const Weights& weights, bool most) {
  Composition out = range.typical;
  const double whole = std::accumulate(range.typical.acids.begin(), range.typical.acids.end(), 0.0);
  std::array<std::size_t, core::kFattyAcidCount> order;
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return most ? weights[a] > weights[b] : weights[a] < weights[b];
  });
  out.acids = range.low;
  double lacking = whole - std::accumulate(out.acids.begin(), out.acids.end(), 0.0);
  for (const std::size_t k : order) {
    const double more = std::clamp(lacking, 0.0, range.high[k] - range.low[k]);
    out.acids[k] += more;
    lacking -= more;
  }
  out.unsaponifiable =
      (weights[kUnsaponifiable] > 0) == most ? range.unsaponifiable_high : range.unsaponifiable_low;
  return out;
}

namespace {

// A lot from one number in [0, 1) per varying figure, taken in order from `next`.
template <typename Next>
Composition lot_from(const LotRange& range, Next&& next) {
  Composition out = range.typical;
  double over = 0;  // how far the acids' sum has moved from the typical one
  double below = 0, above = 0;
  for (std::size_t k = 0; k < core::kFattyAcidCount; ++k) {
    if (!(range.high[k] > range.low[k])) continue;
    double& acid = out.acids[k];
    acid = triangular(range.low[k], range.typical.acids[k], range.high[k], next());
    over += acid - range.typical.acids[k];
    below += acid - range.low[k];
    above += range.high[k] - acid;
  }
  const double part = over > 0 ? over / below : -over / above;
  for (std::size_t k = 0; k < core::kFattyAcidCount && over != 0; ++k) {
    double& acid = out.acids[k];
    acid += part * (over > 0 ? range.low[k] - acid : range.high[k] - acid);
  }
  if (range.unsaponifiable_high > range.unsaponifiable_low)
    out.unsaponifiable = triangular(range.unsaponifiable_low, range.typical.unsaponifiable,
                                    range.unsaponifiable_high, next());
  return out;
}

// Returns 0 .. count-1 in a drawn order.
std::vector<std::size_t> shuffled(std::size_t count, std::mt19937_64& bits) {
  std::vector<std::size_t> out(count);
  std::iota(out.begin(), out.end(), std::size_t{0});
  for (std::size_t i = count; i > 1; --i) std::swap(out[i - 1], out[bits() % i]);
  return out;
}

}  // namespace

Composition draw_lot(const LotRange& range, std::mt19937_64& bits) {
  return lot_from(range, [&] { return core::fraction_of(bits()); });
}

double draw_figure(const core::Span& span, std::mt19937_64& bits) {
  return triangular(span.low, span.typical, span.high, core::fraction_of(bits()));
}

double deviations(double share) {
  if (!(share >= 0.5 && share < 1)) throw std::invalid_argument("deviations: share in [0.5, 1)");
  double low = 0, high = 40;
  for (int round = 0; round < 100; ++round) {
    const double z = (low + high) / 2;
    (std::erfc(z / std::sqrt(2.0)) / 2 > 1 - share ? low : high) = z;
  }
  return high;
}

LotSample::Drawn LotSample::drawn(const oils::Oil& oil, const LotRange& range) {
  Drawn out;
  out.mean = range.typical;
  for (std::size_t k = 0; k < core::kFattyAcidCount; ++k)
    if (range.high[k] > range.low[k]) out.varied.push_back(k);
  if (range.unsaponifiable_high > range.unsaponifiable_low) out.varied.push_back(kUnsaponifiable);
  if (out.varied.empty()) return out;
  std::mt19937_64 bits(core::hash_of(oil.name));
  // Each figure takes every kDraws-th of its law once, in an order of its own (a Latin hypercube:
  // McKay, Beckman and Conover 1979; recalled): means come out some ten times nearer.
  std::vector<std::vector<std::size_t>> orders;
  for (std::size_t v = 0; v < out.varied.size(); ++v) orders.push_back(shuffled(kDraws, bits));
  out.values.reserve(kDraws * out.varied.size());
  for (std::size_t draw = 0; draw < kDraws; ++draw) {
    std::size_t figure = 0;
    const auto parts = components(lot_from(range, [&] {
      return (static_cast<double>(orders[figure++][draw]) + core::fraction_of(bits())) / kDraws;
    }));
    for (const std::size_t k : out.varied) out.values.push_back(parts[k]);
  }
  for (std::size_t v = 0; v < out.varied.size(); ++v) {
    double sum = 0;
    for (std::size_t draw = 0; draw < kDraws; ++draw)
      sum += out.values[draw * out.varied.size() + v];
    const std::size_t k = out.varied[v];
    (k == kUnsaponifiable ? out.mean.unsaponifiable : out.mean.acids[k]) = sum / kDraws;
  }
  return out;
}

std::shared_ptr<const LotSample::Drawn> LotSample::kept(const oils::Oil& oil,
                                                        const LotRange& range) {
  constexpr std::size_t kMostKept = 200;  // oils, about 80 kB each
  struct Kept {
    LotRange range;
    std::shared_ptr<const Drawn> drawn;
  };
  static std::mutex lock;
  static std::map<std::string, Kept> all;  // by oil, as it was asked for last
  const std::scoped_lock held(lock);
  if (all.size() >= kMostKept && !all.contains(oil.name)) all.clear();
  Kept& one = all[oil.name];
  if (!one.drawn || !(one.range == range))
    one = {range, std::make_shared<const Drawn>(drawn(oil, range))};
  return one.drawn;
}

LotSample::LotSample(const oils::Oil& oil, const LotRange& range)
    : typical_(range.typical), drawn_(kept(oil, range)) {}

LotSpread LotSample::spread(const Weights& weights, double share, bool most) const {
  const double typical = weigh(weights, typical_);
  const auto& [varied, values, middle] = *drawn_;
  if (varied.empty()) return {typical, 0};
  const auto fixed = components(typical_);
  double rest = typical;
  for (const std::size_t k : varied) rest -= weights[k] * fixed[k];
  std::vector<double> scores(kDraws, rest);
  for (std::size_t draw = 0; draw < kDraws; ++draw)
    for (std::size_t v = 0; v < varied.size(); ++v)
      scores[draw] += weights[varied[v]] * values[draw * varied.size() + v];
  const double mean = std::accumulate(scores.begin(), scores.end(), 0.0) / kDraws;
  double squares = 0;
  for (const double score : scores) squares += (score - mean) * (score - mean);
  // Two standard errors further out, so that the sample's own luck is not counted on.
  const double safe =
      std::min(share + 2 * std::sqrt(share * (1 - share) / kDraws), 1 - 1.0 / kDraws);
  const auto place = static_cast<std::size_t>((most ? safe : 1 - safe) * (kDraws - 1));
  std::nth_element(scores.begin(), scores.begin() + static_cast<std::ptrdiff_t>(place),
                   scores.end());
  return {mean, clamp_spread(mean, std::sqrt(squares / (kDraws - 1)), scores[place], share, most)};
}

LotSpread figure_spread(const core::Span& span, double share, bool most) {
  const double low = std::min(span.low, span.typical), high = std::max(span.high, span.typical);
  const double a = low, b = span.typical, c = high;
  const double mean = (a + b + c) / 3;
  const double variance = (a * a + b * b + c * c - a * b - a * c - b * c) / 18;
  const double tail = triangular(low, span.typical, high, most ? share : 1 - share);
  return {mean, clamp_spread(mean, std::sqrt(variance), tail, share, most)};
}

}  // namespace barwright::targets
