#pragma once

#include "targets/files/batch_file.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::targets {

/// Returns one part of a batch; the key is its name.
Part read_part(const oils::yaml::Node& key, const oils::yaml::Node& value, const Reading& reading);

}  // namespace barwright::targets
