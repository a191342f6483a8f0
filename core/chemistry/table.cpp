#include "core/chemistry/table.hpp"

#include <algorithm>
#include <cmath>

namespace barwright::core {

double read_table(std::span<const TablePoint> table, double at) {
  std::size_t i = 1;
  while (i + 1 < table.size() && at > table[i].at) ++i;
  const TablePoint& a = table[i - 1];
  const TablePoint& b = table[i];
  return std::lerp(a.value, b.value, (std::clamp(at, a.at, b.at) - a.at) / (b.at - a.at));
}

}  // namespace barwright::core
