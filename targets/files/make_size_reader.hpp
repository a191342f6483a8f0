#pragma once

#include <string>
#include <vector>

#include "targets/files/make_size.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::targets {

/// Returns how much to make: {bars:, each:, weighed:}, {moulds: [...]} or {oils: 2600 g}, or the
/// phrase "2600 g oils". Errors: none or several of these, a mould of no size.
/// Moulds may go by the names that the workshop of `folder` knows.
MakeSize read_make(const oils::yaml::Node& node, const std::string& folder);
/// Returns moulds: each of inside (three lengths), volume or water, or a name the workshop knows.
std::vector<Mould> read_moulds(const oils::yaml::Node& node, const std::string& folder);

}  // namespace barwright::targets
