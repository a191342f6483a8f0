#pragma once

#include <string>
#include <utility>
#include <vector>

#include "oils/text/yaml.hpp"

namespace barwright::targets {

/// Packaging of one bar: what, and pieces of it.
using PackedIn = std::vector<std::pair<std::string, double>>;

/// Returns what stands under 'packed-in': {kraft box: 1}, [kraft box, band], or none. Errors:
/// InputError for pieces that are no number above zero.
PackedIn read_packed_in(const oils::yaml::Node& node);

}  // namespace barwright::targets
