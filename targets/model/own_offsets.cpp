#include "targets/model/own_offsets.hpp"

#include <algorithm>
#include <cmath>

#include "targets/model/words.hpp"

namespace barwright::targets {

double log_per_step(Property property) { return noticeable(property) / 25; }

double own_effect(const PropertyForm& form, Property property, const Composition& pure,
                  double steps) {
  if (steps == 0) return 0;
  // The oil by its acids alone, whatever the form holds of it already.
  Composition nameless = pure;
  nameless.parts.clear();
  return own_effect(form.rising(), property, form.inner(nameless), steps);
}

double own_effect(bool rising, Property property, double alone, double steps) {
  if (!rising) return alone * std::expm1(-steps * log_per_step(property));
  return std::clamp(alone + steps * noticeable(property), 0.0, 100.0) - alone;
}

void put_own(PropertyForm& form, Property property, const OilOffsets& offsets) {
  std::vector<double> own;
  for (const OilOffsets::Of& one : offsets.oils) {
    const double steps = one.steps[static_cast<std::size_t>(property)];
    const std::size_t oil = one.pure.parts.front().oil;
    if (own.size() <= oil) own.resize(oil + 1, 0.0);
    own[oil] = own_effect(form, property, one.pure, steps);
  }
  form.linear.own = std::move(own);
}

}  // namespace barwright::targets
