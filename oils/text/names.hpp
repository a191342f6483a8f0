#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/units/error.hpp"

namespace barwright::oils::yaml {

/// Returns the name of `known` nearest to `word` by edit distance, or empty when none is near.
/// Case, and '-', '_' against a space, do not count.
std::string nearest_name(std::string_view word, const std::vector<std::string>& known);

/// Returns "Did you mean 'a'? " and what follows it, 'a' as its suggestion; without a name near
/// enough only what follows.
core::Remedy did_you_mean(const std::string& near, const std::string& rest = {});

/// Returns "Did you mean 'a'? Known here: a, b or c." for an error's remedy.
core::Remedy nearest_and_known(std::string_view word, const std::vector<std::string>& known);

/// Returns "a, b or c" for an error's list of what is allowed; empty for none.
std::string one_of(const std::vector<std::string>& words);

}  // namespace barwright::oils::yaml
