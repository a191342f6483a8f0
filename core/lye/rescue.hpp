#pragma once

#include <optional>

#include "core/lye/batch_pot.hpp"

namespace barwright::core {

/// Where a rescued pot must end.
struct RescueGoal {
  double superfat = 0.05;  ///< nominal, at least
  double never_below = 0;  ///< worst case, at least
};

/// Returns whether a pot meets the goal.
bool meets(const PotCheck& check, const RescueGoal& goal);

/// Returns the least grams of `fat` (its own grams ignored), up to the step of the oils scale, that
/// bring the pot to the goal; 0 when it is there; nothing when no amount up to twice the pot's fat
/// does.
std::optional<double> fat_to_add(const Pot& pot, const PotFat& fat, const RescueGoal& goal,
                                 const Scales& scales);

/// Returns the pot with the fat added.
Pot with_fat(Pot pot, const PotFat& fat, double grams);

/// Returns the most grams of `alkali` (as weighed), down to the step of the lye scale, that may be
/// added with the goal still met; 0 when none.
double alkali_to_add(const Pot& pot, const PotAlkali& alkali, const RescueGoal& goal,
                     const Scales& scales);
Pot with_alkali(Pot pot, const PotAlkali& alkali, double grams, const Scales& scales);

}  // namespace barwright::core
