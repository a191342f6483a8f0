#pragma once

#include <cstddef>
#include <vector>

#include "core/lye/batch_pot.hpp"
#include "core/lye/lye.hpp"
#include "solver/formulate/candidate.hpp"
#include "solver/optimise/problem.hpp"
#include "targets/model/model.hpp"

namespace barwright::formulate {

// The lye engine reckons with one of a few superfats ("levels"), the first at which the worst case
// of the weighed pot holds, and rounds the alkali down. Both follow from two sums that are linear
// in the shares: the alkali that the fat needs, and what the fat is sure to need at least. So the
// blends of one level, and of one stretch of need, lie between limits that the search knows, but
// for what the scales round off. Every limit here is let out by as much as rounding can do, so that
// no blend is ever outside the limits of its own slice; whether a blend belongs is asked of its
// weighed recipe.

/// One oil alone in the pot: mol of alkali, from..to where it depends on which lots are used.
struct LyeOil {
  double need_low = 0, need_high = 0;  ///< at the typical figure
  double sure_low = 0, sure_high = 0;  ///< at the least the worst case counts
};

/// What the lye of one batch size is reckoned from.
struct LyeGround {
  std::vector<LyeOil> oils;  ///< one per candidate
  double oil_grams = 0;
  double other_need = 0, other_sure = 0;           ///< mol, of fats beside the blend
  double corrected = 0, acid = 0, least_acid = 0;  ///< mol: dosed for acids, used up, at least
  double brought_water = 0;                        ///< g, by liquids and acids
  core::LyeSettings settings;
  core::Scales scales;
  int most_lines = 0;     ///< oils in a blend, at most
  double rounded_by = 0;  ///< g that a line of the blend is rounded by, at most
  bool fixed = true;      ///< false: other lines follow the blend, so nothing linear can be said
};

/// Returns the ground of a batch. `pot` and `brought_water` (g): what is weighed beside the blend.
LyeGround lye_ground(const Candidates& candidates, const optimise::Problem& problem,
                     double oil_grams, const core::Pot& beside, double brought_water,
                     const core::LyeSettings& settings, const core::Scales& scales);

/// Blends whose lye is reckoned at one level and whose fat needs this much alkali, mol.
struct LyeSlice {
  std::size_t level = 0;  ///< of core::superfat_levels
  double need_from = 0;
  double need_to = optimise::kInfinity;  ///< beyond
  bool holds(double need) const { return need >= need_from && need < need_to; }
};

/// Returns the slices, one per level, that may hold a blend of the problem; disjoint, and together
/// all blends that can be weighed.
std::vector<LyeSlice> lye_slices(const LyeGround& ground, const optimise::Problem& problem);

/// Returns limits of the house that every blend of the slice keeps.
std::vector<optimise::Limit> lye_limits(const LyeGround& ground, const LyeSlice& slice);

/// The settings a property may be reckoned at.
struct SettingsBox {
  targets::BarSettings low, high;
  targets::BarSettings middle() const;
  bool has(const targets::BarSettings& settings) const;
};

/// Returns what superfat and lye a blend of the slice comes to, all else as in `about`.
SettingsBox settings_box(const LyeGround& ground, const LyeSlice& slice,
                         const targets::BarSettings& about);

/// Returns two slices that make up this one, where that narrows the superfat; else none.
std::vector<LyeSlice> halves(const LyeGround& ground, const LyeSlice& slice);

}  // namespace barwright::formulate
