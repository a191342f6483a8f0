#pragma once

#include "core/lye/lye_parts.hpp"

namespace barwright::core::lye_parts {

/// Adds what the maker should be told about this lye.
void add_notes(Lye& lye, std::span<const PotFat> fats, std::span<const Acid> acids,
               const LyeSettings& settings, const Scales& scales);

/// Throws the Refusal for a superfat that would have to rise but may not. `lye` holds the superfat
/// it would rise to.
[[noreturn]] void refuse_raising(const Lye& lye, const LyeSettings& settings);

}  // namespace barwright::core::lye_parts
