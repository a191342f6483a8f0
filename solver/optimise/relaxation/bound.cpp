#include "solver/optimise/relaxation/bound.hpp"

#include <algorithm>
#include <cmath>

#include "solver/optimise/relaxation/kernels.hpp"

namespace barwright::optimise {
namespace {
constexpr double kEps = 2.3e-16;
}

void bound_linear(const Region& region, const LinearGoal& goal, std::span<const double> y,
                  Bound& out) {
  const std::size_t n = std::size_t(region.columns);
  out.reduced.resize(n);
  double* d = out.reduced.data();
  if (goal.cost.empty())
    std::fill_n(d, n, 0.0);
  else
    std::copy(goal.cost.begin(), goal.cost.end(), d);
  double rows_value = 0, rows_size = 0, y_size = 0;
  int used = 2;
  out.factor.clear();
  out.row.clear();
  for (std::size_t r = 0; r < y.size(); ++r) {
    const double yr = y[r];
    if (yr == 0) continue;
    ++used;
    out.factor.push_back(-yr);
    out.row.push_back(region.rows[r].data());
    const double at = yr * (yr > 0 ? region.row_low[r] : region.row_high[r]);
    rows_value += at;
    rows_size += std::abs(at);
    // No coefficient exceeds 1 but for the count row's, which are at most count_scale.
    y_size += std::abs(yr) * (int(r) == region.count_row ? region.count_scale : 1.0);
  }
  combine(n, out.row.size(), out.factor.data(), out.row.data(), d);
  double value = goal.constant + rows_value;
  double size = goal.constant_size + rows_size;
  double lost = 0;
  const double doubt = kEps * (used + 16) * (y_size + goal.cost_size);
  for (std::size_t j = 0; j < n; ++j) {
    const double low = region.low[j], high = region.high[j];
    const double at = d[j] > 0 ? low : high;
    const double term = d[j] * at;
    value += term;
    size += std::abs(term);
    lost +=
        doubt * (std::abs(d[j]) <= doubt ? std::max(std::abs(low), std::abs(high)) : std::abs(at));
  }
  out.doubt = doubt;
  out.value = value - lost - kEps * double(n + y.size()) * size;
  if (std::isnan(out.value)) out.value = -kInfinity;
}

void tangent(const Relaxation& relaxation, std::span<const double> v, LinearGoal& out) {
  out.cost = relaxation.cost;
  out.constant = relaxation.constant;
  out.constant_size = std::abs(relaxation.constant);
  const std::size_t n = out.cost.size();
  double most_cost = 0;
  for (double c : out.cost) most_cost = std::max(most_cost, std::abs(c));
  out.cost_size = most_cost;
  std::vector<std::size_t>& used = out.used;
  used.clear();
  for (std::size_t j = 0; j < n; ++j)
    if (v[j] != 0) used.push_back(j);
  out.factor.clear();
  out.row.clear();
  for (const Square& square : relaxation.squares) {
    const double* g = square.g.data();
    double t = 0;
    for (std::size_t j : used) t += g[j] * v[j];
    const double slope = 2 * square.weight * (t - square.point);
    const double linear = slope * square.point, curved = slope * slope / (4 * square.weight);
    out.constant -= linear + curved;
    out.constant_size += std::abs(linear) + curved;
    out.factor.push_back(slope);
    out.row.push_back(g);
    out.cost_size += std::abs(slope) * square.largest;
  }
  combine(n, out.row.size(), out.factor.data(), out.row.data(), out.cost.data());
}

bool proves_empty(const Region& region, std::span<const double> y, Bound& scratch) {
  bound_linear(region, {}, y, scratch);
  return scratch.value > 0;
}

}  // namespace barwright::optimise
