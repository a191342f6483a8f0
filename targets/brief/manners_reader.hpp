#pragma once

#include "targets/files/oil_rules.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::targets {

/// Returns what a brief says of the manners: 'none', 'without few oils, vegan', or a block such as
/// {few oils: no}. Errors: a name that is no manner.
MannersWish read_manners_wish(const oils::yaml::Node& node);

}  // namespace barwright::targets
