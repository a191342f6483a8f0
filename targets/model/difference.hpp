#pragma once

#include "targets/model/model.hpp"

namespace barwright::targets {

Difference difference(const PropertyModel& model, const std::vector<PropertyModel>& draws,
                      Property property, const Composition& bar, const BarSettings& bar_settings,
                      const Composition& yardstick, const BarSettings& yardstick_settings);

}  // namespace barwright::targets
