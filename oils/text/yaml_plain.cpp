#include "oils/text/yaml_plain.hpp"

#include <algorithm>

namespace barwright::oils::yaml {

Plain plain_of(const Node& node) {
  if (node.is_null()) return {};
  if (node.is_scalar()) return {Kind::scalar, node.text(), {}, {}};
  Plain out;
  out.kind = node.is_map() ? Kind::map : Kind::list;
  if (node.is_map()) {
    for (const auto& [key, value] : node.entries()) {
      out.keys.push_back(key.text());
      out.held.push_back(plain_of(value));
    }
  } else {
    for (const Node& item : node.items()) out.held.push_back(plain_of(item));
  }
  if (out.held.empty()) return {};
  return out;
}

Plain changed(Plain all, const std::vector<std::string>& path, const std::optional<Plain>& value) {
  Plain* at = &all;
  for (std::size_t i = 0; i < path.size(); ++i) {
    if (at->kind == Kind::null) at->kind = Kind::map;
    const bool map = at->kind == Kind::map;
    const auto found =
        map ? static_cast<std::size_t>(std::find(at->keys.begin(), at->keys.end(), path[i]) -
                                       at->keys.begin())
            : static_cast<std::size_t>(std::stoul(path[i]));
    const auto offset = static_cast<std::ptrdiff_t>(found);
    if (i + 1 == path.size() && !value) {
      at->held.erase(at->held.begin() + offset);
      if (map) at->keys.erase(at->keys.begin() + offset);
      if (at->held.empty()) *at = {};
      break;
    }
    if (found == at->held.size()) {
      at->held.emplace_back();
      if (map) at->keys.push_back(path[i]);
    }
    at = &at->held[found];
  }
  if (value) *at = *value;
  return all;
}

}  // namespace barwright::oils::yaml
