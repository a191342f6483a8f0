#pragma once

#include <set>
#include <string>
#include <string_view>

namespace barwright::core {

/// Returns what is known of an addition's origin by its name: "animal", "dairy", "bee", "tree nut",
/// "soya", "wheat", "made" (a colour from a works), with the words of the library's tags for oils.
/// Empty for what is not known. Judgement from the meaning of the names; a name with "vegan" or a
/// plant before its "milk" is no animal's.
std::set<std::string> traits_of(std::string_view name);

}  // namespace barwright::core
