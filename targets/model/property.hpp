#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace barwright::targets {

/// What a maker can ask of a bar. All 0 to 100, higher is more of the name, but for `titre` (C).
enum class Property {
  hardness,
  lather,
  conditioning,
  cut_firmness,
  quickness,
  staying,
  mildness,
  thrift,
  keeping,
  working_time,
  soluble_20,
  soluble_38,
  titre,
};
inline constexpr std::size_t kPropertyCount = 13;

/// Returns the name as briefs and JSON write it, e.g. "cut-firmness".
std::string_view name(Property property);
std::optional<Property> find_property(std::string_view name);
const std::array<Property, kPropertyCount>& all_properties();

}  // namespace barwright::targets
