#pragma once

#include <optional>
#include <string>

#include "targets/files/oil_rules.hpp"

namespace barwright::targets {

/// The bar in the hand: a blend of the maker's (inline or from a recipe file), or a shipped one.
struct Yardstick {
  std::string name;     ///< as sentences name it
  std::string shipped;  ///< name of a shipped yardstick; then `blend` is empty
  std::string file;     ///< of the recipe, where one holds it
  std::optional<Blend> blend;
  std::optional<double> superfat;       ///< fraction
  std::optional<double> concentration;  ///< g alkali per g of lye
  std::optional<double> koh_share;      ///< fraction of the alkali, by moles
  Written written;
};

}  // namespace barwright::targets
