#pragma once

#include "targets/model/coefficients.hpp"
#include "targets/model/model.hpp"

namespace barwright::targets {

/// Returns the form of a property that has one, from the chain figures of one set of constants.
PropertyForm property_form(Property property, const ConstantValues& values, const Chains& chains,
                           const BarSettings& settings);

/// Throws std::invalid_argument for settings no bar can have.
void check_settings(const BarSettings& settings);

}  // namespace barwright::targets
