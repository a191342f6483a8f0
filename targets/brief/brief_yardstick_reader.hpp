#pragma once

#include "targets/brief/brief_yardstick.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::targets {

/// Returns the bar a brief compares with: a block with a blend, a recipe file, or the name of a
/// shipped yardstick.
Yardstick read_yardstick(const oils::yaml::Node& node, const Reading& reading);

/// Returns the name of the shipped yardstick a maker's words mean (case and hyphens folded), or
/// empty; and what to say when there is none.
std::string find_shipped(std::string_view words);
core::Remedy shipped_remedy(std::string_view words);

}  // namespace barwright::targets
