#include "targets/files/packed_in.hpp"

#include "targets/text/brief_block.hpp"

namespace barwright::targets {

PackedIn read_packed_in(const oils::yaml::Node& node) {
  PackedIn out;
  if (node.is_map()) {
    for (const auto& [name, count] : node.entries())
      out.emplace_back(name.text(), above_zero(count.number(), count, "pieces a bar"));
    return out;
  }
  if (node.is_scalar() && same_word(folded_text(node), "none")) return out;
  for (const auto& item : list_of(node)) out.emplace_back(plain_text(item), 1);
  return out;
}

}  // namespace barwright::targets
