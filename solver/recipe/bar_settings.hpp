#pragma once

#include "core/lye/recipe.hpp"
#include "targets/model/model.hpp"

namespace barwright::recipe {

/// Returns the bar's settings that a weighed recipe has, for the property model.
targets::BarSettings settings_of(const core::Recipe& recipe);

}  // namespace barwright::recipe
