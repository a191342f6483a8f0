#include "solver/optimise/relaxation/node.hpp"

#include <algorithm>

namespace barwright::optimise {

Region::Region(const Problem& problem, const Relaxation& relaxation)
    : oils(relaxation.oils()),
      columns(relaxation.columns()),
      low(relaxation.low),
      high(relaxation.high),
      pieces(relaxation.bends.size(), Piece::open) {
  for (const Row& row : relaxation.rows) {
    rows.push_back(row.a);
    row_low.push_back(row.low);
    row_high.push_back(row.high);
  }
  for (const OilBounds& oil : problem.oils) least.push_back(oil.least);
  int candidates = 0;
  double most_sum = 0;
  for (int i = 0; i < oils; ++i) {
    if (is_in(i)) ++in;
    if (high[std::size_t(i)] > 0) {
      ++candidates;
      most_sum += high[std::size_t(i)];
    }
  }
  most_oils = problem.most_oils > 0 ? problem.most_oils : oils;
  count_coefficient.assign(std::size_t(oils), 0.0);
  if (candidates <= most_oils) return;
  count_scale = std::max(1.0, most_sum / candidates);
  count_row = int(rows.size());
  rows.emplace_back(std::size_t(columns), 0.0);
  row_low.push_back(0);
  row_high.push_back(0);
  write_count_row();
}

bool Region::is_void() const {
  for (std::size_t i = 0; i < std::size_t(oils); ++i)
    if (low[i] > high[i]) return true;
  return false;
}

void Region::write_count_row() {
  if (count_row < 0) return;
  const std::size_t r = std::size_t(count_row);
  std::vector<double>& a = rows[r];
  double reach = 0;
  for (int i = 0; i < oils; ++i) {
    const std::size_t s = std::size_t(i);
    const double q = high[s] > 0 ? count_scale / high[s] : 0;
    count_coefficient[s] = q;
    a[s] = is_free(i) ? q : 0;
    if (is_free(i)) reach += count_scale;
  }
  row_low[r] = -count_scale;
  row_high[r] = std::min(count_scale * (most_oils - in + kTolerance), 2 * reach);
}

}  // namespace barwright::optimise
