#include "targets/model/difference.hpp"

#include <algorithm>
#include <cmath>

#include "targets/model/words.hpp"

namespace barwright::targets {
namespace {

// Linear between the two nearest order statistics.
double percentile(std::vector<double>& sorted, double share) {
  const double place = share * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  const double part = place - static_cast<double>(below);
  return sorted[below] + part * (sorted[above] - sorted[below]);
}

}  // namespace

Difference difference(const PropertyModel& model, const std::vector<PropertyModel>& draws,
                      Property property, const Composition& bar, const BarSettings& bar_settings,
                      const Composition& yardstick, const BarSettings& yardstick_settings) {
  const auto between = [&](const PropertyModel& with) {
    return with.value(property, bar, bar_settings) -
           with.value(property, yardstick, yardstick_settings);
  };
  Difference out;
  out.value = out.low = out.high = between(model);
  if (!draws.empty()) {
    std::vector<double> drawn;
    drawn.reserve(draws.size());
    for (const PropertyModel& draw : draws) drawn.push_back(between(draw));
    std::sort(drawn.begin(), drawn.end());
    out.low = percentile(drawn, 0.05);
    out.high = percentile(drawn, 0.95);
  }
  const bool one_sign = (out.low > 0 && out.value > 0) || (out.high < 0 && out.value < 0);
  // A hair below the step is the step: figures are computed, not counted.
  const bool felt = std::abs(out.value) >= noticeable(property) - 1e-9;
  out.sure = !draws.empty() && one_sign && felt;
  return out;
}

}  // namespace barwright::targets
