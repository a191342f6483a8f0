#include "solver/tune/settled.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace barwright::tune {
namespace {

struct Half {
  std::vector<double> values;
  double mean = 0, variance = 0;
};

Half half_of(std::span<const double> values) {
  Half out{{values.begin(), values.end()}};
  for (const double v : values) out.mean += v / static_cast<double>(values.size());
  for (const double v : values) out.variance += (v - out.mean) * (v - out.mean);
  out.variance /= static_cast<double>(values.size() - 1);
  return out;
}

// Mean over the halves of their own covariance at this distance.
double covariance(const std::vector<Half>& halves, std::size_t apart) {
  double sum = 0;
  for (const Half& half : halves) {
    const std::size_t n = half.values.size();
    double own = 0;
    for (std::size_t i = apart; i < n; ++i)
      own += (half.values[i] - half.mean) * (half.values[i - apart] - half.mean);
    sum += own / static_cast<double>(n);
  }
  return sum / static_cast<double>(halves.size());
}

}  // namespace

Agreement agreement(std::span<const std::vector<double>> runs) {
  std::vector<Half> halves;
  for (const auto& run : runs) {
    const std::size_t n = run.size() / 2;
    if (n < 2) return {std::numeric_limits<double>::infinity(), 0};
    halves.push_back(half_of(std::span(run).first(n)));
    halves.push_back(half_of(std::span(run).last(n)));
  }
  const auto m = static_cast<double>(halves.size());
  const auto n = static_cast<double>(halves.front().values.size());
  double mean = 0, within = 0, between = 0;
  for (const Half& half : halves) {
    mean += half.mean / m;
    within += half.variance / m;
  }
  for (const Half& half : halves) between += (half.mean - mean) * (half.mean - mean) / (m - 1);
  const double total = (n - 1) / n * within + between;
  // A figure that no run moves, but for rounding.
  if (!(total > 1e-24 * (1 + mean * mean))) return {1, m * n};
  if (!(within > 0)) return {std::numeric_limits<double>::infinity(), 0};
  Agreement out;
  out.r_hat = std::sqrt(total / within);
  // Pairs of neighbouring covariances, taken while they are above zero and made to fall.
  double sum = 0, last = std::numeric_limits<double>::infinity();
  const auto rho = [&](std::size_t apart) {
    return 1 - (within - covariance(halves, apart) * n / (n - 1)) / total;
  };
  for (std::size_t t = 0; t + 1 < halves.front().values.size(); t += 2) {
    const double pair = std::min(last, (t == 0 ? 1 : rho(t)) + rho(t + 1));
    if (!(pair > 0)) break;
    sum += pair;
    last = pair;
  }
  out.effective = std::min(m * n / std::max(2 * sum - 1, 1.0 / (m * n)), m * n);
  return out;
}

}  // namespace barwright::tune
