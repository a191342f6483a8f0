#pragma once

#include "targets/brief_block.hpp"
#include "targets/brief_yardstick.hpp"

namespace barwright::targets {

/// Returns the bar a brief compares with: a block with a blend, a recipe file, or the name of a
/// shipped yardstick (whether there is one of that name, the caller knows).
Yardstick read_yardstick(const oils::yaml::Node& node, const Reading& reading);

}  // namespace barwright::targets
