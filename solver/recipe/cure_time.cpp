#include "solver/recipe/cure_time.hpp"

#include "core/bench/cure.hpp"

namespace barwright::recipe {

namespace {
constexpr double kHardnessNear = 2;  // still to come at the end of the cure, points
constexpr int kMostWeeks = 26;
constexpr int kOldBar = 365;  // days
}  // namespace

int cure_weeks(const targets::PropertyModel& model, const targets::Composition& composition,
               targets::BarSettings settings, double water, double thickness) {
  int weeks = core::drying_weeks(water, thickness);
  settings.cure_days = kOldBar;
  const double end = model.value(targets::Property::hardness, composition, settings);
  for (; weeks < kMostWeeks; ++weeks) {
    settings.cure_days = 7 * weeks;
    const double now = model.value(targets::Property::hardness, composition, settings);
    if (now >= end - kHardnessNear) break;
  }
  return weeks;
}

}  // namespace barwright::recipe
