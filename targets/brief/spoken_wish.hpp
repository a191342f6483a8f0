#pragma once

#include <string>
#include <vector>

#include "targets/brief/wish.hpp"
#include "targets/files/oil_rules.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::targets {

/// Reads wishes as a maker says them, "harder, lather no less; without palm": parted by ';', by ',
/// ' or as a list. Each becomes a wish, a goal or a rule, and carries in its words what it was read
/// as: "harder (hardness: clearly more)". Errors: InputError for what cannot be read.
void read_spoken(const oils::yaml::Node& node, const Reading& reading, std::vector<Wish>& wishes,
                 std::vector<Goal>& goals, OilRules& rules);

}  // namespace barwright::targets
