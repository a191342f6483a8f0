#pragma once

#include <string>
#include <vector>

#include "targets/brief/brief.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::targets {

/// Reads "at most 4.20 EUR per kg", or a list of such, as wishes on the oil cost.
void read_cost(const std::string& key, const oils::yaml::Node& value, std::vector<Wish>& wishes);
/// Takes `cost` from a block of limits.
void take_cost(Block& block, std::vector<Wish>& wishes);

/// Takes `best` and `then`; errors are kept by the block.
void read_goal_keys(Block& block, const Reading& reading, std::vector<Goal>& goals);

/// Refuses a wish or goal that compares with a bar nobody named.
void check_yardstick(bool present, const std::vector<Wish>& wishes, const std::vector<Goal>& goals);
/// Refuses a cost per bar or batch, or steps in grams, without a size of batch.
void check_sizes(const Brief& brief);

}  // namespace barwright::targets
