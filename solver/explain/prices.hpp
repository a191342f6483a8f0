#pragma once

#include <optional>
#include <vector>

#include "solver/explain/fixes.hpp"
#include "solver/explain/relax_wish.hpp"

namespace barwright::explain {

/// What moving one number of the brief by whole noticeable steps does to the first goal.
struct Move {
  /// Of the goal by the first step, on the maker's scale; below 0: better; infinite: no blend left.
  double change = 0;
  bool proved = false;  ///< the re-solved blend is proved best (or its absence is)
  /// The furthest level up to which every step is worth what the first one is, on the average and
  /// within PriceOptions::alike; the levels tried were re-solved. Equal to Price::level: not even
  /// one step was solved.
  double holds_to = 0;
  bool holds_throughout = false;  ///< no end was met within PriceOptions::most_steps
  std::vector<int> next;          ///< wishes that bind or collide where it ends, ascending
};

/// One side of one wish, priced.
struct Price {
  int wish = -1;
  Change::What what = Change::What::floor;
  int index = -1;      ///< into complete(problem, wishes).measures, or into Wishes::rules
  double level = 0;    ///< as wished, the maker's unit
  double step = 1;     ///< its noticeable step
  double slack = 0;    ///< how far inside the best blend lies: up to here asking more costs nothing
  bool binds = false;  ///< one step given way betters the goal
  Move looser;
  Move tighter;
  /// The level nearest to the wish at which a better blend appears: exact where `better_proved`.
  /// Not sought where the goal has curved parts or the side is a rule.
  std::optional<double> better_from;
  bool better_proved = false;
};

struct PriceOptions {
  double least_gain =
      1e-6;             ///< a change of the goal smaller than this is none, on the maker's scale
  double alike = 0.1;   ///< how far the mean price may drift from that of the first step
  int most_steps = 16;  ///< how far a price is followed
  /// Sides with more slack than this many noticeable steps at the best blend are left out: they
  /// hardly ever bind, and a whole library has a hundred of them.
  double most_slack = optimise::kInfinity;
};

/// Returns the prices of all sides of all wishes at a best blend, the dearest first (by what one
/// step given way betters). `best` must be proved optimal for the problem's first goal: else
/// std::invalid_argument. When the deadline passes, the sides not reached are missing and the
/// figures not proved say so; tight sides come first.
std::vector<Price> find_prices(const optimise::Problem& problem, const Wishes& wishes,
                               const optimise::Answer& best,
                               const optimise::SearchOptions& options = {},
                               const PriceOptions& how = {});

}  // namespace barwright::explain
