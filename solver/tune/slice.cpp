#include "solver/tune/slice.hpp"

#include <cmath>
#include <numbers>
#include <numeric>

namespace barwright::tune {
namespace {

double square_of(std::span<const double> values) {
  double sum = 0;
  for (const double v : values) sum += v * v;
  return sum;
}

// Halves the arc of angles until `put` at one of them lies above the level.
template <typename Put>
void shrink(double level, Dice& dice, Put&& put) {
  double angle = 2 * std::numbers::pi * dice.uniform();
  double low = angle - 2 * std::numbers::pi, high = angle;
  while (!(put(angle) > level)) {
    (angle < 0 ? low : high) = angle;
    // The arc has closed on where the step began: rounding alone keeps it out.
    if (high - low < 1e-12) {
      put(0);
      return;
    }
    angle = low + (high - low) * dice.uniform();
  }
}

}  // namespace

void elliptical_step(Stand& stand, const LogLikelihood& likelihood,
                     std::span<const std::size_t> block, Dice& dice) {
  std::vector<std::size_t> all;
  if (block.empty()) {
    all.resize(stand.at.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    block = all;
  }
  std::vector<double> was, across;
  for (const std::size_t i : block) {
    was.push_back(stand.at[i]);
    across.push_back(dice.normal());
  }
  const double level = stand.log_likelihood + std::log(1 - dice.uniform());
  shrink(level, dice, [&](double angle) {
    const double c = std::cos(angle), s = std::sin(angle);
    for (std::size_t k = 0; k < block.size(); ++k) stand.at[block[k]] = was[k] * c + across[k] * s;
    return stand.log_likelihood = likelihood(stand.at);
  });
}

namespace {

double dot(const std::vector<double>& a, const std::vector<double>& b) {
  return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

void add(std::vector<double>& to, const std::vector<double>& direction, double times) {
  for (std::size_t i = 0; i < to.size(); ++i) to[i] += times * direction[i];
}

}  // namespace

void fitted_step(Stand& stand, const LogLikelihood& likelihood, const Fit& fit, Dice& dice) {
  const std::size_t n = fit.directions.size();
  if (n == 0) return;
  // Where the run stands along them, and in the fit's own unit; what lies across stays.
  std::vector<double> across = stand.at, own(n), turn(n);
  for (std::size_t k = 0; k < n; ++k) {
    const double place = dot(stand.at, fit.directions[k]);
    add(across, fit.directions[k], -place);
    own[k] = (place - fit.mean[k]) / fit.spread[k];
  }
  const double half = (fit.freedom + static_cast<double>(n)) / 2;
  const double size = std::sqrt((fit.freedom + square_of(own)) / 2 / dice.gamma(half));
  for (double& t : turn) t = size * dice.normal();
  std::vector<double> middle = across, there(across.size(), 0.0), aside(across.size(), 0.0);
  for (std::size_t k = 0; k < n; ++k) {
    add(middle, fit.directions[k], fit.mean[k]);
    add(there, fit.directions[k], fit.spread[k] * own[k]);
    add(aside, fit.directions[k], fit.spread[k] * turn[k]);
  }
  // What the law looked for is beside the fit.
  const auto beside = [&](double c, double s) {
    double square = 0, prior = 0;
    for (std::size_t k = 0; k < n; ++k) {
      const double place = own[k] * c + turn[k] * s;
      const double plain = fit.mean[k] + fit.spread[k] * place;
      square += place * place;
      prior += plain * plain;
    }
    return stand.log_likelihood - prior / 2 + half * std::log1p(square / fit.freedom);
  };
  const double level = beside(1, 0) + std::log(1 - dice.uniform());
  shrink(level, dice, [&](double angle) {
    const double c = std::cos(angle), s = std::sin(angle);
    for (std::size_t i = 0; i < middle.size(); ++i)
      stand.at[i] = middle[i] + there[i] * c + aside[i] * s;
    stand.log_likelihood = likelihood(stand.at);
    return beside(c, s);
  });
}

void crossing_step(Stand& stand, const LogLikelihood& likelihood, const Fit& fit, Dice& dice) {
  std::vector<double> along(stand.at.size(), 0.0), was = stand.at, aside(stand.at.size());
  for (double& one : aside) one = dice.normal();
  for (const auto& direction : fit.directions) {
    const double place = dot(stand.at, direction);
    add(along, direction, place);
    add(was, direction, -place);
    add(aside, direction, -dot(aside, direction));
  }
  const double level = stand.log_likelihood + std::log(1 - dice.uniform());
  shrink(level, dice, [&](double angle) {
    const double c = std::cos(angle), s = std::sin(angle);
    for (std::size_t i = 0; i < was.size(); ++i) stand.at[i] = along[i] + was[i] * c + aside[i] * s;
    return stand.log_likelihood = likelihood(stand.at);
  });
}

double moved_along(double at, const std::function<double(double)>& log_law, Dice& dice) {
  const double level = log_law(at) + std::log(1 - dice.uniform());
  double low = at - 2 * dice.uniform(), high = low + 2;
  while (low > at - 12 && log_law(low) > level) low -= 2;
  while (high < at + 12 && log_law(high) > level) high += 2;
  for (int round = 0; round < 200; ++round) {
    const double z = low + (high - low) * dice.uniform();
    if (log_law(z) > level) return z;
    (z < at ? low : high) = z;
  }
  return at;
}

}  // namespace barwright::tune
