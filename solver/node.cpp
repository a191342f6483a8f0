#include "solver/node.hpp"

#include <algorithm>

namespace barwright::solver {

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
  std::vector<double> a(std::size_t(columns), 0.0);
  double reach = 0;
  for (int i = 0; i < oils; ++i) {
    if (!is_free(i)) continue;
    count_coefficient[std::size_t(i)] = count_scale / high[std::size_t(i)];
    a[std::size_t(i)] = count_coefficient[std::size_t(i)];
    reach += count_scale;
  }
  rows.push_back(std::move(a));
  row_low.push_back(-count_scale);
  row_high.push_back(std::min(count_scale * (most_oils - in + kTolerance), 2 * reach));
}

}  // namespace barwright::solver
