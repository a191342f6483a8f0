#pragma once

#include <cstddef>
#include <string_view>

#include "targets/files/oil_rules.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::targets {

/// Returns the oil a node names. Errors: unknown oil, with the nearest name.
OilName read_oil(const oils::yaml::Node& node, const Reading& reading);
/// The same for a text that stands `offset` bytes into a node.
OilName read_oil(const oils::yaml::Node& node, std::string_view text, std::size_t offset,
                 const Reading& reading);

/// Returns a blend: {olive: 50 %, ...}, {olive: 500 g, ...}, one oil may say "rest". Errors: shares
/// that do not add to 100 %, percent and grams mixed, an oil twice.
Blend read_blend(const oils::yaml::Node& node, const Reading& reading);

/// Returns shelf | library | a price list | [shelf, mango butter, ...].
OilsFrom read_oils_from(const oils::yaml::Node& node, const Reading& reading);

}  // namespace barwright::targets
