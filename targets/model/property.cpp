#include "targets/model/property.hpp"

namespace barwright::targets {
namespace {

constexpr std::array<std::string_view, kPropertyCount> kNames = {
    "hardness", "lather",  "conditioning", "cut-firmness", "quickness",  "staying", "mildness",
    "thrift",   "keeping", "working-time", "soluble-20",   "soluble-38", "titre",
};

}  // namespace

std::string_view name(Property property) { return kNames[static_cast<std::size_t>(property)]; }

std::optional<Property> find_property(std::string_view name) {
  for (Property property : all_properties())
    if (targets::name(property) == name) return property;
  return std::nullopt;
}

const std::array<Property, kPropertyCount>& all_properties() {
  using enum Property;
  static constexpr std::array<Property, kPropertyCount> kAll = {
      hardness, lather,  conditioning, cut_firmness, quickness,  staying, mildness,
      thrift,   keeping, working_time, soluble_20,   soluble_38, titre};
  return kAll;
}

}  // namespace barwright::targets
