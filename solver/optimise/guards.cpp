#include "solver/optimise/guards.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace barwright::optimise {
namespace {

double or_zero(const std::vector<double>& v, std::size_t i) { return v.empty() ? 0 : v[i]; }

double at_reserve(const LotReserve& reserve, std::span<const double> x) {
  double squares = reserve.rest * reserve.rest;
  for (std::size_t i = 0; i < reserve.sizes.size(); ++i) {
    const double part =
        std::abs(x[i] - or_zero(reserve.there, i)) * reserve.sizes[i] + or_zero(reserve.besides, i);
    squares += part * part;
  }
  return std::sqrt(squares);
}

// Adds the slopes of -reserve at x.
void slope_reserve(const LotReserve& reserve, std::span<const double> x, std::span<double> slope) {
  const double length = at_reserve(reserve, x);
  if (!(length > 0)) return;  // flat touches the tip
  for (std::size_t i = 0; i < reserve.sizes.size(); ++i) {
    const double off = x[i] - or_zero(reserve.there, i);
    if (off == 0) continue;
    const double part = std::abs(off) * reserve.sizes[i] + or_zero(reserve.besides, i);
    slope[i] -= (off > 0 ? 1 : -1) * reserve.sizes[i] * part / length;
  }
}

double largest(const std::vector<double>& v) {
  double most = 0;
  for (const double c : v) most = std::max(most, std::abs(c));
  return most;
}

double through(double value, std::span<const double> x, std::span<const double> slope) {
  for (std::size_t i = 0; i < slope.size(); ++i) value -= slope[i] * x[i];
  return value;
}

class LessReserve final : public Concave {
 public:
  explicit LessReserve(LotReserve reserve) : reserve_(std::move(reserve)) {}

  double at(std::span<const double> x) const override { return -at_reserve(reserve_, x); }
  double plane(std::span<const double> x, std::span<double> slope) const override {
    std::fill(slope.begin(), slope.end(), 0.0);
    slope_reserve(reserve_, x, slope);
    return through(at(x), x, slope);
  }
  double steepest() const override { return largest(reserve_.sizes); }
  std::size_t work() const override { return 2 * reserve_.sizes.size(); }
  bool same(std::size_t a, std::size_t b) const override {
    // Two lots are steadier than one: only oils that do not vary may be exchanged.
    return reserve_.sizes[a] == 0 && reserve_.sizes[b] == 0;
  }

 private:
  LotReserve reserve_;
};

class LeastReading final : public Concave {
 public:
  LeastReading(std::vector<Reading> ways, double share) : ways_(std::move(ways)), left_(1 - share) {
    if (ways_.empty() || !(share >= 0 && share < 1))
      throw std::invalid_argument("least_reading: a way and a share below 1 are needed");
    for (const Reading& way : ways_) {
      const Readings& all = *way.readings;
      if (all.constants.empty() || all.constants.size() % all.planes != 0 ||
          all.above.size() != all.constants.size() * all.oils || all.there.size() != all.oils ||
          way.reserve.sizes.size() != all.oils)
        throw std::invalid_argument("least_reading: the parts do not fit together");
      steepest_ = std::max({steepest_, largest(all.above) + largest(way.reserve.sizes),
                            largest(all.below) + largest(way.reserve.sizes)});
      for (std::size_t p = 0; p < all.constants.size(); ++p)
        widest_ = std::max(widest_, spread(all, p) + 2 * largest(way.reserve.sizes));
    }
  }

  double at(std::span<const double> x) const override { return least(x).value; }
  double plane(std::span<const double> x, std::span<double> slope) const override {
    const Found found = least(x);
    const Readings& all = *found.way->readings;
    std::fill(slope.begin(), slope.end(), 0.0);
    for (const Counted& one : found.counted) {
      for (std::size_t i = 0; i < all.oils; ++i)
        slope[i] += one.weight * rows(all, x[i] >= all.there[i])[one.plane * all.oils + i];
    }
    slope_reserve(found.way->reserve, x, slope);
    return through(found.value, x, slope);
  }
  double steepest() const override { return steepest_; }
  double widest() const override { return widest_; }
  std::size_t work() const override {
    constexpr std::size_t kMoved = 8;  // oils in the blend, about
    std::size_t all = 0;
    for (const Reading& way : ways_)
      all += kMoved * way.readings->constants.size() + 2 * way.reserve.sizes.size();
    return all;
  }
  bool same(std::size_t, std::size_t) const override { return false; }

 private:
  struct Counted {
    std::size_t plane = 0;
    double value = 0;
    double weight = 0;
  };
  struct Found {
    const Reading* way = nullptr;
    double value = 0;
    std::vector<Counted> counted;
  };

  // How far apart the slopes of one plane can be.
  static double spread(const Readings& all, std::size_t plane) {
    double least = kInfinity, most = -kInfinity;
    for (const auto* rows : {&all.above, &all.below}) {
      if (rows->empty()) continue;
      const auto from = rows->begin() + static_cast<std::ptrdiff_t>(plane * all.oils);
      const auto [low, high] =
          std::minmax_element(from, from + static_cast<std::ptrdiff_t>(all.oils));
      least = std::min(least, *low);
      most = std::max(most, *high);
    }
    return most - least;
  }

  static const std::vector<double>& rows(const Readings& all, bool above) {
    return above || all.below.empty() ? all.above : all.below;
  }

  // The lowest readings of one way at x; the last one counts by what is left of the tail.
  std::vector<Counted> lowest(const Reading& way, std::span<const double> x) const {
    const Readings& all = *way.readings;
    std::vector<std::size_t> moved;
    for (std::size_t i = 0; i < all.oils; ++i)
      if (x[i] != all.there[i]) moved.push_back(i);
    std::vector<Counted> counted(all.constants.size() / all.planes);
    for (std::size_t p = 0; p < all.constants.size(); ++p) {
      const std::size_t m = p / all.planes;
      double value = all.constants[p] + or_zero(way.shift, m);
      for (const std::size_t i : moved) {
        const double off = x[i] - all.there[i];
        value += rows(all, off >= 0)[p * all.oils + i] * off;
      }
      if (p % all.planes == 0 || value < counted[m].value) counted[m] = {p, value, 0};
    }
    const double tail = left_ * static_cast<double>(counted.size());
    const auto many = std::min(counted.size(), static_cast<std::size_t>(std::ceil(tail - 1e-9)));
    std::partial_sort(counted.begin(), counted.begin() + static_cast<std::ptrdiff_t>(many),
                      counted.end(), [](const Counted& a, const Counted& b) {
                        return a.value != b.value ? a.value < b.value : a.plane < b.plane;
                      });
    counted.resize(many);
    double left = 1;
    for (Counted& one : counted) {
      one.weight = std::min(1 / tail, left);
      left -= one.weight;
    }
    counted.back().weight += left;
    return counted;
  }

  Found least(std::span<const double> x) const {
    Found best;
    for (const Reading& way : ways_) {
      std::vector<Counted> counted = lowest(way, x);
      double value = -at_reserve(way.reserve, x);
      for (const Counted& one : counted) value += one.weight * one.value;
      if (best.way == nullptr || value < best.value) best = {&way, value, std::move(counted)};
    }
    return best;
  }

  std::vector<Reading> ways_;
  double left_;  ///< the share of readings that counts
  double steepest_ = 0, widest_ = 0;
};

}  // namespace

std::shared_ptr<const Concave> less_reserve(LotReserve reserve) {
  return std::make_shared<LessReserve>(std::move(reserve));
}

std::shared_ptr<const Concave> least_reading(std::vector<Reading> ways, double share) {
  return std::make_shared<LeastReading>(std::move(ways), share);
}

}  // namespace barwright::optimise
