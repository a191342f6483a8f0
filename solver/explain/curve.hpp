#pragma once

#include <vector>

#include "solver/optimise/problem.hpp"
#include "solver/optimise/search.hpp"

namespace barwright::explain {

/// One point of a trade-off.
struct CurvePoint {
  double allowed = 0;       ///< ceiling on the second form at this point
  double first = 0;         ///< value of the problem's first goal (minimised)
  double second = 0;        ///< value of the second form
  optimise::Answer answer;  ///< optimal: no blend under `allowed` has a lower first goal, proved
  bool new_blend = true;    ///< false: the blend of the point before is still the best
};

struct Curve {
  std::vector<CurvePoint> points;  ///< the second form falls, the first goal rises
  bool proved = false;             ///< both ends and every point
  optimise::Status status =
      optimise::Status::undecided;  ///< infeasible: there is no blend; optimal: see points
};

/// Returns the best first goal under `points` evenly spaced ceilings on a second form, from no
/// ceiling down to the least it can be (the epsilon-constraint method), or to within a thousandth
/// of its span over the oils (or, rarely, a few) where the last of it would take long. Each point
/// carries its own proof. Where the first goal has no curved part, ties go to the lower second
/// form, as far as the next point tells. Both forms are minimised: negate to raise. When the time
/// is up, points are missing. Needs points >= 2 and one goal at least; errors:
/// std::invalid_argument.
Curve trade_off(const optimise::Problem& problem, const optimise::Form& second, int points = 21,
                const optimise::SearchOptions& options = {});

}  // namespace barwright::explain
