#pragma once

#include <string>
#include <vector>

#include "solver/app/print/rows.hpp"
#include "solver/jobs/explore/explore_job.hpp"

namespace barwright::app {

/// Return what there is to buy, what is made of it, and what is left over; the plan is found.
Rows buy_rows(const solver::ExploreJob& job, const solver::Explored& seen);
Rows range_rows(const solver::ExploreJob& job, const solver::Explored& seen);
Rows left_rows(const solver::ExploreJob& job, const solver::Explored& seen);
/// Returns what is in the prices of the plan, and which wish on the cost delivery breaks.
std::vector<std::string> plan_notes(const solver::ExploreJob& job, const solver::Explored& seen);
/// Returns the last day to order with its reckoning, or an empty text.
std::string order_words(const solver::Explored& seen);

/// Return the truly different blends of one bar, its curves, and what prices may do.
Rows blend_rows(const solver::ExploreJob& job, const solver::ExploreBar& bar,
                const solver::ExploredBar& seen);
Rows curve_rows(const solver::ExploreJob& job, const solver::ExploreBar& bar,
                const solver::ExploredBar& seen);
Rows traced_rows(const solver::ExploreJob& job, const solver::ExploredBar& seen,
                 const solver::TracedTrade& traced);
Rows room_rows(const solver::ExploreJob& job, const solver::ExploredBar& seen);
Rows worth_rows(const solver::ExploreJob& job, const solver::ExploredBar& seen);

/// Returns what every bar comes to when its wishes are kept for more and more lots.
Rows sureness_rows(const solver::ExploreJob& job, const solver::Explored& seen);
/// Returns what there is to say below it, a sentence.
std::string sureness_words(const solver::Explored& seen);
/// Returns "typical lots", "80 lots in 100", "the worst lots".
std::string lots_words(const targets::SureLevel& level);

/// Returns for which lots the wishes of a range count, a sentence; empty: for typical ones.
std::string level_words(const solver::ExploreJob& job);
/// Returns whether a bar's price of sureness is told in another figure than its cost.
bool has_other_goal(const solver::SurenessPrice& price);
/// Returns whether wishes of one brief are kept at different levels.
bool mixed_levels(const targets::Brief& brief);

/// Returns "108 bars in 3 batches of 36".
std::string batches_words(const solver::ExploreBar& bar);
/// Returns what was proved of the first blend and the others, a sentence.
std::string blends_proof(const solver::ExploredBar& seen);
/// Returns "Every point is proved." or what was not.
std::string curve_proof(const solver::Curve& curve);

/// Returns a side of a traced curve with its unit: "cost, EUR per kg".
std::string side_words(const solver::ExploreJob& job, const solver::TradeSide& side);

/// Returns the oil cost of a blend, currency units per kg of oils, by list and shelf.
double cost_per_kg(const solver::ExploreJob& job, std::span<const int> steps, int all);

}  // namespace barwright::app
