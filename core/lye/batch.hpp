#pragma once

#include <span>
#include <string>
#include <vector>

#include "core/lye/batch_pot.hpp"

namespace barwright::core {

/// What a part needs of a lye pot that serves several parts.
struct LyeNeed {
  std::string part;
  std::vector<PotFat> fats;  ///< as weighed
  std::vector<Acid> acids;
  double superfat = 0.05;  ///< aim, fraction
  double never_below = 0;  ///< worst case, fraction
  bool may_raise = true;   ///< else refused where the floor asks for more
};

/// A part's portion of the one solution.
struct LyePortion {
  std::string part;
  double solution_grams = 0;      ///< to weigh out, down to the lye scale's step
  double exact_grams = 0;         ///< before rounding
  double raised_superfat = 0;     ///< what it was reckoned with; = aim when not raised
  std::vector<PotAlkali> alkali;  ///< what is in it
  double water_grams = 0;         ///< what is in it
  PotCheck check;                 ///< the part with it
  /// Returns by how much rounding raised the superfat, fraction (of the exact dose: a little more).
  double moved_by_rounding() const { return 1 - solution_grams / exact_grams; }
};

/// One solution for several parts.
struct SharedLye {
  std::vector<AlkaliLine> alkali;  ///< weighed once for all
  double water_grams = 0;          ///< weighed once, before the alkali
  double making_weight = 0;        ///< of solution: topped up to it with water once cool
  double concentration = 0;        ///< pure alkali, mass fraction, at its making weight
  std::vector<LyePortion> portions;
  double left_grams = 0;  ///< solution that stays in the pot
};

/// Returns one lye for all parts, shared out by weight of solution. Each portion is rounded down to
/// the lye scale; where the worst case (errors of the pot's weighing and of the portion's together)
/// lies below the part's floor, its superfat rises by half points to 8 %. `settings` gives alkali,
/// strengths and water; its superfat is not used. Errors: Refusal as lye_for(), no part.
SharedLye share_lye(std::span<const LyeNeed> parts, const LyeSettings& settings,
                    const Scales& scales, double oil_grams);

/// Of the making weight: what may boil off a lye that is not topped up (judgement).
inline constexpr double kBoiledOff = 0.03;

/// Returns the part's check if the solution, boiled down by `lost_grams` of water, is shared out by
/// weight without topping it up.
PotCheck check_untopped(const SharedLye& lye, const LyeNeed& need, const LyePortion& portion,
                        double lost_grams, const Scales& scales);

}  // namespace barwright::core
