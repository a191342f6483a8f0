#pragma once

// Problems of another make than instances.hpp, as briefs are: blends with the shares of real
// recipes, two-sided ranges on scores with bends, few or no ranges, lots of one oil that all but
// agree, steps of a tenth of a per cent to one. Nothing is tuned on even seeds: they are looked at
// only when the tables are printed.

#include <cstdint>
#include <vector>

#include "solver/optimise/problem.hpp"

namespace barwright::testing {

enum class Asked { cheapest, most, least, nearest_point, nearest_in_feel };

struct UnseenSpec {
  int oils = 60;
  int most_oils = 6;
  int steps = 100;
  int least = 1;         ///< steps, when used
  int ranges = 4;        ///< on straight scores
  int bent = 2;          ///< two-sided, on scores with bends
  double narrowest = 2;  ///< width of a range, points
  double widest = 8;
  double near =
      0.2;  ///< share of the oils that are another lot of one before, within half a per cent
  Asked asked = Asked::cheapest;
  bool can_be_met = false;  ///< the point or the feel is that of a blend that fits
  std::uint64_t seed = 1;
};

/// Deterministic: the same spec gives the same problem on every machine.
optimise::Problem make_unseen(const UnseenSpec& spec);

/// Returns the blend that fits, whole steps; with can_be_met it is at the very point wished for.
std::vector<int> hidden_blend(const UnseenSpec& spec);

}  // namespace barwright::testing
