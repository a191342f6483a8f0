#pragma once

#include "core/lye/lye.hpp"

namespace barwright::core {

/// Returns notes, and throws the Refusal, about lye of this strength (mass fraction of pure alkali
/// in the lye pot before late liquids join): too strong to dissolve, hydrates crystallising at the
/// planned temperature, unusually strong or weak, how hot it makes itself, not a bar. Lye made in
/// ice is judged at `kIceLyeCelsius`, however warm it is planned: so cold it may stand in its ice
/// water.
std::vector<Note> check_strength(const LyeSettings& settings, const KohShares& koh,
                                 double concentration, bool in_ice = false);

inline constexpr double kIceLyeCelsius = 10;  ///< C, judgement

}  // namespace barwright::core
