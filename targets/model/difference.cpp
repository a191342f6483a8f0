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

namespace {

// Fewest pours whose notes may make sure of what print is not sure of.
constexpr std::size_t kLeastPours = 3;
// Readings that one pour's notes alone hold up are no ground to stand on without it: so many equal
// ones must be left.
constexpr double kLeastLeft = 40;

// Whether less than a twentieth of the readings, each as it counts, has the other sign.
bool one_sign(const std::vector<double>& drawn, const std::vector<double>& counts, double value) {
  double all = 0, squares = 0, other = 0;
  for (std::size_t i = 0; i < drawn.size(); ++i) {
    all += counts[i];
    squares += counts[i] * counts[i];
    if (!(drawn[i] * value > 0)) other += counts[i];
  }
  return all * all >= kLeastLeft * squares && other < 0.05 * all;
}

bool sure_of_print(Property property, const Composition& bar, const BarSettings& bar_settings,
                   const Composition& yardstick, const BarSettings& yardstick_settings) {
  const PropertyModel print = PropertyModel::embedded();
  return difference(print, print.readings(), property, bar, bar_settings, yardstick,
                    yardstick_settings)
      .sure;
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
  std::vector<double> drawn;
  if (!draws.empty()) {
    drawn.reserve(draws.size());
    for (const PropertyModel& draw : draws) drawn.push_back(between(draw));
    std::vector<double> sorted = drawn;
    std::sort(sorted.begin(), sorted.end());
    out.low = percentile(sorted, 0.05);
    out.high = percentile(sorted, 0.95);
  }
  const bool in_band = (out.low > 0 && out.value > 0) || (out.high < 0 && out.value < 0);
  // A hair below the step is the step: figures are computed, not counted.
  const bool felt = std::abs(out.value) >= noticeable(property) - 1e-9;
  out.sure = !draws.empty() && in_band && felt;
  const PropertyModel::Tuning* tuning = model.tuning();
  if (tuning == nullptr || !out.sure) return out;
  const auto stays = [&](const std::vector<double>& counts) {
    return counts.size() == drawn.size() && one_sign(drawn, counts, out.value);
  };
  const auto& pours = tuning->without_pour;
  if (pours.size() >= kLeastPours && std::all_of(pours.begin(), pours.end(), stays)) return out;
  if (sure_of_print(property, bar, bar_settings, yardstick, yardstick_settings)) return out;
  out.sure = false;
  out.too_few_pours = true;
  return out;
}

}  // namespace barwright::targets
