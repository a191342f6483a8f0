#pragma once

#include <string>
#include <vector>

#include "targets/brief/wish.hpp"

namespace barwright::targets {

/// Returns the phrases of one text for a subject; `key` stands before them in messages.
std::vector<Wish> read_wish_phrases(const std::string& key, const oils::yaml::Node& value,
                                    const Subject& subject);

}  // namespace barwright::targets
