#pragma once

#include "core/lye/lye_parts.hpp"

namespace barwright::core::lye_parts {

void check_fat(const PotFat& fat);

/// Throw the Refusal for settings or a fat that cannot be meant.
void check_settings(const LyeSettings& settings);

/// Throws the Refusal when more than kMostWaxShare of the fats saponify in part only.
void check_waxes(std::span<const PotFat> fats);

/// Returns the strength to dose with. Errors: Refusal when missing or impossible.
Strength checked(Alkali alkali, const std::optional<Strength>& strength);

/// Returns the names as a list, each once: "beeswax, wool fat".
std::string listed(std::span<const std::string> names);

/// Throws the Refusal that names the fat whose range costs most, and the share it can be capped at.
/// `verdict` is that of the dose at superfat `limit`, the most that was tried.
[[noreturn]] void refuse_loosest(std::span<const PotFat> fats, const LyeSettings& settings,
                                 const Scales& scales, double limit, const PotCheck& verdict);

}  // namespace barwright::core::lye_parts
