#include "core/lye/superfat_levels.hpp"

#include <algorithm>

#include "core/lye/lye_parts.hpp"

namespace barwright::core {

std::vector<double> superfat_levels(const LyeSettings& settings) {
  constexpr double kRaiseStep = 0.005;  // half a point
  const double limit = std::max(lye_parts::kRaiseLimit, settings.superfat);
  std::vector<double> levels = {settings.superfat};
  for (int step = 1; settings.superfat + step * kRaiseStep <= limit + 1e-12; ++step)
    levels.push_back(settings.superfat + step * kRaiseStep);
  return levels;
}

}  // namespace barwright::core
