#pragma once

#include <span>

#include "core/fatty_acid.hpp"

namespace barwright::core {

/// One fat of a blend by its acids.
struct MeltingFat {
  AcidProfile acids{};  ///< mass fractions, sum 1; all 0 for a wax (taken as solid)
  double share = 0;     ///< mass fraction of the blend
  bool wax = false;
};

/// Returns the share of the blend (0..1) that is solid fat at this temperature, C, once it has had
/// time to set. Each fat's acids are thrown together at random into triglycerides; those melt like
/// one mixed crystal beside an ideal liquid. Melting points: the mean of the three plain
/// triglycerides' (beta prime), less a fitted 10 C, less 4 C per carbon of spread in chain length;
/// the three fitted figures give 9.3 points rms over coconut, palm kernel, palm, lard and tallow at
/// 10 to 37.8 C (printed solid fat indices, recalled). Butters set by sharp polymorphs are worse.
double solid_share(std::span<const MeltingFat> fats, double celsius);

/// Returns the temperature, C, at which the solid share falls to `share`; between -30 and 80.
double celsius_of_solid_share(std::span<const MeltingFat> fats, double share);

/// What solid_share() is off by, rms, against printed figures.
inline constexpr double kSolidDoubt = 0.09;
/// Where a poured body thickens without being soap, and where creamed fats whip (fractions).
/// False trace: judgement. Whipping: the plastic range of shortenings, 15 to 35 % solid, recalled;
/// widened upwards, since air and lye thin it (judgement).
inline constexpr double kFalseTraceSolids = 0.05;
inline constexpr double kCreamedLeast = 0.15;
inline constexpr double kCreamedMost = 0.45;

}  // namespace barwright::core
