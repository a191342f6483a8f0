#pragma once

#include <span>

#include "core/chemistry/fatty_acid.hpp"

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

/// Returns one fat's pull towards crystals at this temperature, C, above 0 when it sets alone. A
/// blend without wax is clear exactly when the sum of share times pull is <= 0: at the point where
/// the last crystal melts, the melt is the whole blend, so that the balance of solid_share() is
/// linear in the shares. `fat.share` is not looked at. Infinite for a wax.
double crystal_pull(const MeltingFat& fat, double celsius);

/// Returns the temperature, C, above which nothing of the blend is solid, by the same model;
/// between -30 and 80 (80: a wax is in it).
double clear_celsius(std::span<const MeltingFat> fats);

/// What solid_share() is off by, rms, against printed figures.
inline constexpr double kSolidDoubt = 0.09;

/// Where a poured body thickens without being soap, and where creamed fats whip (fractions).
/// False trace: judgement. Whipping: the plastic range of shortenings, 15 to 35 % solid, recalled;
/// widened upwards, since air and lye thin it (judgement).
inline constexpr double kFalseTraceSolids = 0.05;
inline constexpr double kCreamedLeast = 0.15;
inline constexpr double kCreamedMost = 0.45;

}  // namespace barwright::core
