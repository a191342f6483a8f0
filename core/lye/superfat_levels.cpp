#include "core/lye/superfat_levels.hpp"

#include <algorithm>

#include "core/lye/lye_parts.hpp"

namespace barwright::core {

std::vector<double> superfat_levels(double asked) {
  constexpr double kRaiseStep = 0.005;  // half a point
  const double limit = std::max(lye_parts::kRaiseLimit, asked);
  std::vector<double> levels = {asked};
  for (int step = 1; asked + step * kRaiseStep <= limit + 1e-12; ++step)
    levels.push_back(asked + step * kRaiseStep);
  return levels;
}

}  // namespace barwright::core
