#pragma once

#include <optional>
#include <string>
#include <vector>

#include "oils/text/yaml.hpp"

namespace barwright::oils::yaml {

/// What a file says, without places, quotes and comments: for comparing two of them.
struct Plain {
  Kind kind = Kind::null;
  std::string text;               ///< of a scalar
  std::vector<std::string> keys;  ///< of a block, one for each of `held`
  std::vector<Plain> held;

  bool operator==(const Plain&) const = default;
};

/// Returns what a node says; empty brackets say nothing.
Plain plain_of(const Node& node);

/// Returns it with the value at a path (keys; numbers from 0 in lists) put in, added at the end
/// where it is not there, or taken out where there is none. The way to it must be there.
Plain changed(Plain all, const std::vector<std::string>& path, const std::optional<Plain>& value);

}  // namespace barwright::oils::yaml
