#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "core/chemistry/fatty_acid.hpp"
#include "oils/records/oil.hpp"

namespace barwright::targets {

/// What the property model sees of a fat: linear in the shares, so that the composition of a blend
/// is the share-weighted sum of its oils' compositions.
struct Composition {
  core::AcidProfile acids{};  ///< mass fraction of the fat's fatty acids; with `wax`, sum 1
  double unsaponifiable = 0;  ///< mass fraction of the fat
  double wax = 0;             ///< mass fraction of wax (jojoba, beeswax, lanolin): scored apart
  double free_acid = 0;  ///< mass fraction that is free fatty acid (stearic acid, part of a wax)
  double hard_wax = 0;   ///< part of `wax` that is solid in a room (beeswax; jojoba is not)
  double lard = 0;       ///< mass fraction of pork fat, which thickens later than its acids say
  /// The oils it is made of: for what an oil does that its acids do not say.
  struct Part {
    std::uint32_t oil = 0;  ///< by oil_number
    double share = 0;
    bool operator==(const Part&) const = default;
  };
  std::vector<Part> parts = {};
  bool operator==(const Composition&) const = default;
};

/// Returns the number that stands for an oil's name, the same for as long as the program runs.
std::uint32_t oil_number(std::string_view name);

/// Returns an oil's composition from its typical figures. A wax is all wax: no acids.
Composition composition(const oils::Oil& oil);
/// Returns the share-weighted sum; shares are fractions of total oil mass.
Composition mix(std::span<const Composition> parts, std::span<const double> shares);

/// The same numbers as one flat vector, for linear forms: acids, then unsaponifiable, wax, free
/// acid, hard wax, lard.
inline constexpr std::size_t kComponentCount = core::kFattyAcidCount + 5;
inline constexpr std::size_t kUnsaponifiable = core::kFattyAcidCount;
inline constexpr std::size_t kWax = kUnsaponifiable + 1;
inline constexpr std::size_t kFreeAcid = kUnsaponifiable + 2;
inline constexpr std::size_t kHardWax = kUnsaponifiable + 3;
inline constexpr std::size_t kLard = kUnsaponifiable + 4;
std::array<double, kComponentCount> components(const Composition& composition);

}  // namespace barwright::targets
