#pragma once

#include <span>
#include <string>

#include "core/lye/batch_pot.hpp"

// What the lye engine's own sources share; other layers use lye.hpp.
namespace barwright::core::lye_parts {

inline constexpr double kRaiseLimit = 0.08;    ///< superfat is not raised past this
inline constexpr double kMostSuperfat = 0.50;  ///< beyond, it is no longer soap

/// Returns moles of KOH (of any alkali) for grams of fat at a saponification value in mg KOH/g.
inline double moles_for(double grams, double value) { return grams * value / 1000 / kKohMolarMass; }

/// Returns g the weight of this fat may be off.
inline double error_of(const PotFat& fat, const Scales& scales) {
  return fat.error.value_or(scales.oils.error_grams());
}

/// Returns the names as a list, each once: "beeswax, wool fat".
std::string listed(std::span<const std::string> names);

/// Throw the Refusal for settings or a fat that cannot be meant.
void check_settings(const LyeSettings& settings);
void check_fat(const PotFat& fat);
/// Throws the Refusal when more than kMostWaxShare of the fats saponify in part only.
void check_waxes(std::span<const PotFat> fats);
/// Returns the strength to dose with. Errors: Refusal when missing or impossible.
Strength checked(Alkali alkali, const std::optional<Strength>& strength);

/// Throws the Refusal that names the fat whose range costs most, and the share it can be capped at.
/// `verdict` is that of the dose at superfat `limit`, the most that was tried.
[[noreturn]] void refuse_loosest(std::span<const PotFat> fats, const LyeSettings& settings,
                                 const Scales& scales, double limit, const PotCheck& verdict);

/// Throws the Refusal for a superfat that would have to rise but may not. `lye` holds the superfat
/// it would rise to.
[[noreturn]] void refuse_raising(const Lye& lye, const LyeSettings& settings);

/// Adds what the maker should be told about this lye.
void add_notes(Lye& lye, std::span<const PotFat> fats, std::span<const Acid> acids,
               const LyeSettings& settings, const Scales& scales);

}  // namespace barwright::core::lye_parts
