#pragma once

#include <optional>
#include <vector>

#include "targets/brief/brief.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::targets {

/// Takes `limits`, `not`, `tag rules` and `manners` of a brief; a cost among the limits becomes a
/// wish. Errors are kept by the block.
void read_rule_keys(Block& block, const Reading& reading, OilRules& rules,
                    std::vector<Wish>& wishes);

/// Where the lines of a brief go that say how the batch is made.
struct BatchKeys {
  std::optional<MakeSize>& make;
  LyeWish& lye;
  Scale& scale;
  SureLevel& sureness;
};
/// Takes `make`, `lye`, `scale` and `sureness`; what is left open is the workshop's. Errors are
/// kept by the block.
void read_batch_keys(Block& block, const Reading& reading, const BatchKeys& into);

}  // namespace barwright::targets
