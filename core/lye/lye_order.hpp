#pragma once

#include <string>
#include <vector>

#include "core/lye/recipe.hpp"

namespace barwright::core {

/// One thing into the lye pot.
struct LyeStep {
  enum class Kind { water, acid, dry, liquid, frozen, alkali, cooled } kind = Kind::water;
  std::string name;
  double grams = 0;
  std::string how;        ///< in words, no full stop
  bool scorches = false;  ///< milk and the like, for lye that is cooler still
};

/// Returns what goes into the lye pot in the order of work: plain water, acids, dry matter to
/// dissolve, other liquids, frozen ones, then the alkali, then what joins the cooled lye. A liquid
/// never follows the alkali while that is dissolving, and nothing is dissolved in water that is not
/// there yet. Lines of no weight are left out.
std::vector<LyeStep> lye_order(const Recipe& recipe);

/// Returns how one sees that lye is ready for what joins it: "it is clear", or of lye that never
/// clears "no grain of alkali is left".
std::string lye_ready_words(const std::vector<LyeStep>& order);

/// Returns the order as one clause: "water, then vinegar, then the alkali into it a little at a
/// time, never the reverse; once it is clear and below 45 C, sodium lactate syrup".
std::string lye_order_words(const std::vector<LyeStep>& order);

/// Returns whether any of it is frozen: the lye is then made by spoonfuls, in ice.
bool made_in_ice(const std::vector<LyeStep>& order);

/// Returns how one sees that this lye is made: what is tinted or cloudy never clears.
std::string lye_made_sign(const std::vector<LyeStep>& order);

/// Returns C of the lye the moment it is made, no loss: its own water at `kTapCelsius` or frozen,
/// alkali at the room's temperature.
inline constexpr double kTapCelsius = 12;  ///< tap water, judgement
double made_celsius(const Recipe& recipe, double room_celsius = 20);

}  // namespace barwright::core
