#include "solver/guards.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace barwright::solver {
namespace {

class LotCone final : public Concave {
 public:
  explicit LotCone(std::vector<double> sizes) : sizes_(std::move(sizes)) {}

  double at(std::span<const double> x) const override { return -norm(x); }
  double plane(std::span<const double> x, std::span<double> slope) const override {
    const double length = norm(x);
    for (std::size_t i = 0; i < sizes_.size(); ++i)
      slope[i] = length > 0 ? -x[i] * sizes_[i] * sizes_[i] / length : 0;
    return 0;
  }
  double steepest() const override {
    return sizes_.empty() ? 0 : *std::max_element(sizes_.begin(), sizes_.end());
  }
  bool same(std::size_t a, std::size_t b) const override {
    // Two lots are steadier than one: only oils that do not vary may be exchanged.
    return sizes_[a] == 0 && sizes_[b] == 0;
  }

 private:
  double norm(std::span<const double> x) const {
    double squares = 0;
    for (std::size_t i = 0; i < sizes_.size(); ++i) squares += x[i] * x[i] * sizes_[i] * sizes_[i];
    return std::sqrt(squares);
  }
  std::vector<double> sizes_;
};

class LowestReadings final : public Concave {
 public:
  LowestReadings(Readings readings, double share)
      : readings_(std::move(readings)),
        count_(readings_.constants.size() / readings_.planes),
        counted_((1 - share) * static_cast<double>(count_)) {
    if (!(share >= 0 && share < 1) || count_ == 0 ||
        readings_.rows->size() != readings_.constants.size() * readings_.oils)
      throw std::invalid_argument("lowest_readings: readings and share do not fit");
    for (const double c : *readings_.rows) steepest_ = std::max(steepest_, std::abs(c));
  }

  double at(std::span<const double> x) const override {
    double value = 0;
    for (const Counted& one : counted(x)) value += one.weight * one.value;
    return value;
  }
  double plane(std::span<const double> x, std::span<double> slope) const override {
    std::fill(slope.begin(), slope.end(), 0.0);
    double constant = 0;
    for (const Counted& one : counted(x)) {
      const double* row = readings_.rows->data() + one.plane * readings_.oils;
      for (std::size_t i = 0; i < readings_.oils; ++i) slope[i] += one.weight * row[i];
      constant += one.weight * readings_.constants[one.plane];
    }
    return constant;
  }
  double steepest() const override { return steepest_; }
  bool same(std::size_t a, std::size_t b) const override {
    const std::vector<double>& rows = *readings_.rows;
    for (std::size_t at = 0; at < rows.size(); at += readings_.oils)
      if (rows[at + a] != rows[at + b]) return false;
    return true;
  }

 private:
  struct Counted {
    std::size_t plane = 0;
    double value = 0;
    double weight = 0;
  };

  // The planes of the lowest readings at x; the last one counts by what is left of the tail.
  std::vector<Counted> counted(std::span<const double> x) const {
    std::vector<std::size_t> used;
    for (std::size_t i = 0; i < x.size(); ++i)
      if (x[i] != 0) used.push_back(i);
    std::vector<Counted> all(count_);
    for (std::size_t m = 0; m < count_; ++m) {
      for (std::size_t p = 0; p < readings_.planes; ++p) {
        const std::size_t plane = m * readings_.planes + p;
        const double* row = readings_.rows->data() + plane * readings_.oils;
        double value = readings_.constants[plane];
        for (const std::size_t i : used) value += row[i] * x[i];
        if (p == 0 || value < all[m].value) all[m] = {plane, value, 0};
      }
    }
    const auto many = std::min(count_, static_cast<std::size_t>(std::ceil(counted_ - 1e-9)));
    const auto lower = [](const Counted& a, const Counted& b) {
      return a.value != b.value ? a.value < b.value : a.plane < b.plane;
    };
    std::partial_sort(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(many), all.end(),
                      lower);
    all.resize(many);
    double left = 1;
    for (Counted& one : all) {
      one.weight = std::min(1 / counted_, left);
      left -= one.weight;
    }
    if (!all.empty()) all.back().weight += left;
    return all;
  }

  Readings readings_;
  std::size_t count_;
  double counted_;  ///< how many readings the tail holds
  double steepest_ = 0;
};

}  // namespace

std::shared_ptr<const Concave> lot_cone(std::vector<double> sizes) {
  return std::make_shared<LotCone>(std::move(sizes));
}

std::shared_ptr<const Concave> lowest_readings(Readings readings, double share) {
  return std::make_shared<LowestReadings>(std::move(readings), share);
}

}  // namespace barwright::solver
