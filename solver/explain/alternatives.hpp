#pragma once

#include <span>
#include <vector>

#include "solver/optimise/problem.hpp"
#include "solver/optimise/search.hpp"

namespace barwright::explain {

/// Returns a limit that keeps a blend at least `distance` away from `from`: the share that would
/// have to be moved (half the sum of |differences|, a fraction of the oil mass). Since both blends
/// add up to one, what moves is what `from` loses: sum of max(0, from_i - x_i) over its few oils.
optimise::Limit keep_away(const optimise::Problem& problem, std::span<const int> from,
                          double distance);

/// Returns the share moved between two blends, a fraction of the oil mass.
double distance_between(const optimise::Problem& problem, std::span<const int> a,
                        std::span<const int> b);

/// One of several answers.
struct Alternative {
  optimise::Answer answer;     ///< optimal: proved best at this distance from all before it
  std::vector<int> moved;      ///< steps per oil, against the first
  double distance = 0;         ///< share moved against the first, a fraction
  double nearest = 0;          ///< the same against the nearest of those before it
  std::vector<double> values;  ///< of each view, as its form gives it
  std::vector<int> best_at;    ///< views in which no other answer is as good by its margin
};

/// Something to compare the answers by: a property or a cost.
struct View {
  optimise::Form form;
  bool more_is_better = true;
  double noticeable = 0;  ///< lead needed over every other answer to be named for it, form's unit
};

struct Alternatives {
  std::vector<Alternative> found;  ///< the best first
  bool exhausted = false;          ///< proved: no further blend at that distance
  bool proved = true;              ///< every one is proved best at its distance
};

/// Returns the best blend and up to `count` more, each the best at least `distance` away from all
/// before it.
Alternatives find_alternatives(const optimise::Problem& problem, int count, double distance,
                               std::span<const View> views = {},
                               const optimise::SearchOptions& options = {});

}  // namespace barwright::explain
