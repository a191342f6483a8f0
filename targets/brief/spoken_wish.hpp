#pragma once

#include <optional>
#include <vector>

#include "targets/brief/brief_yardstick.hpp"
#include "targets/brief/wish.hpp"
#include "targets/files/oil_rules.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::targets {

/// What a maker's sentence asks for.
struct Spoken {
  std::vector<Wish> wishes;
  std::vector<Goal> goals;
  OilRules rules;  ///< oils barred and shares limited; nothing else is set
};

/// Returns wishes as a maker says them, "harder, lather no less; without palm", parted by ';', by
/// ', ' or as a list. Each becomes a wish, a goal or a rule, and carries in its words what it was
/// read as: "harder (hardness: clearly more)". `bar`: what "less coconut" compares with. Errors:
/// InputError for what cannot be read.
Spoken read_spoken(const oils::yaml::Node& node, const Reading& reading,
                   const std::optional<Yardstick>& bar);

}  // namespace barwright::targets
