#pragma once

#include "core/lye/lye.hpp"

namespace barwright::core {

/// Returns notes, and throws the Refusal, about lye of this strength (mass fraction of pure alkali
/// in the lye pot before late liquids join): too strong to dissolve, hydrates crystallising at the
/// planned temperature, unusually strong or weak, how hot it makes itself, not a bar.
std::vector<Note> check_strength(const LyeSettings& settings, const KohShares& koh,
                                 double concentration);

}  // namespace barwright::core
