#pragma once

#include <vector>

#include "core/lye/lye.hpp"

namespace barwright::core {

/// Returns the superfats lye_for() reckons with in turn until the worst case holds, fractions: the
/// one asked for, then half a point more each time, to 8 % (or no further than asked).
std::vector<double> superfat_levels(const LyeSettings& settings);

}  // namespace barwright::core
