#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace barwright::core {

/// The fatty acids a record can name, shortest first.
enum class FattyAcid {
  C4_0,
  C6_0,
  C8_0,
  C10_0,
  C12_0,
  C14_0,
  C14_1,
  C16_0,
  C16_1,
  C17_0,
  C18_0,
  C18_1,
  C18_1t,
  C18_1OH,
  C18_2,
  C18_3a,
  C18_3g,
  C18_4,
  C20_0,
  C20_1,
  C20_2,
  C20_3,
  C22_0,
  C22_1,
  C22_2,
  C24_0,
  C24_1,
};
inline constexpr std::size_t kFattyAcidCount = 27;

/// What chemistry fixes about one acid.
struct AcidFacts {
  FattyAcid acid;
  std::string_view key;   ///< as data files and JSON write it: "C18:1", "C18:1-trans", "C18:1-OH"
  std::string_view name;  ///< "oleic", ...
  int carbons;
  int double_bonds;
  int hydroxyls;
};

/// Returns the facts of every acid, in enum order.
const std::array<AcidFacts, kFattyAcidCount>& acid_facts();

/// Returns the acid whose key or name is `text` (exact), or nothing.
std::optional<FattyAcid> find_acid(std::string_view text);

/// Returns the molar mass, g/mol, from IUPAC 2021 abridged atomic masses.
double molar_mass(FattyAcid acid);

/// Mass fraction of each acid in a fat's total fatty acids, sum 1. Indexed by FattyAcid.
using AcidProfile = std::array<double, kFattyAcidCount>;

inline double& at(AcidProfile& profile, FattyAcid acid) {
  return profile[static_cast<std::size_t>(acid)];
}
inline double at(const AcidProfile& profile, FattyAcid acid) {
  return profile[static_cast<std::size_t>(acid)];
}

}  // namespace barwright::core
