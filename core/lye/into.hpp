#pragma once

namespace barwright::core {

/// When something meets the batch. `lye`: it is in the pot before the alkali. `cooled_lye`: it
/// joins once the lye is made, clear and below kCooledLyeCelsius; its water dissolves no alkali.
enum class Into { lye, cooled_lye, oils, trace };

inline constexpr double kCooledLyeCelsius = 45;  ///< C, common practice, no source
inline constexpr double kMilkLyeCelsius = 30;    ///< C, the same: what scorches waits for cooler

/// Returns whether it is weighed with the lye, whichever side of the alkali it joins on.
constexpr bool in_lye(Into into) { return into == Into::lye || into == Into::cooled_lye; }

/// Returns "before the alkali", "into the cooled lye", "into the oils" or "at trace".
constexpr const char* word(Into into) {
  switch (into) {
    case Into::lye:
      return "before the alkali";
    case Into::cooled_lye:
      return "into the cooled lye";
    case Into::oils:
      return "into the oils";
    case Into::trace:
      break;
  }
  return "at trace";
}

}  // namespace barwright::core
