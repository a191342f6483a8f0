#pragma once

#include <vector>

namespace barwright::core {

/// Returns the superfats lye_for() reckons with in turn until the worst case holds, fractions: the
/// one asked for, then half a point more each time, to 8 % (or no further than asked).
std::vector<double> superfat_levels(double asked);

}  // namespace barwright::core
