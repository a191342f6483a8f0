#pragma once

#include "solver/formulate/formulation.hpp"
#include "solver/formulate/sure_measure.hpp"

namespace barwright::formulate {

/// Adds the maker's goals in order, then the house's tie breakers: less from outside the shelf,
/// then cheaper. A goal on a property gives way by kTieShare of the least noticeable difference to
/// those after it, unless the maker states otherwise. At `level` likely or worst-case the most or
/// least of a subject is the most or least of what is sure of it (sure_goal).
void add_goals(Formulation& out, const std::vector<targets::Goal>& goals,
               const targets::SureLevel& level, const LotBook& lots, const Candidates& candidates,
               const std::optional<KnownBar>& yardstick, const targets::PropertyModel& model,
               const Assumed& assumed, const PlainBar& plain_bar);

/// Two blends nearer than this share of the least noticeable difference are a tie (judgement: a
/// tenth of what a hand can tell is well inside every doubt).
inline constexpr double kTieShare = 0.1;

}  // namespace barwright::formulate
