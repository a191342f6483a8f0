#pragma once

#include <string>
#include <vector>

#include "solver/app/print/rows.hpp"
#include "solver/jobs/explore/explore_job.hpp"

namespace barwright::app {

/// Return what there is to buy, what is made of it, and what is left over; the plan is found.
Rows buy_rows(const jobs::ExploreJob& job, const jobs::Explored& seen);
Rows range_rows(const jobs::ExploreJob& job, const jobs::Explored& seen);
Rows left_rows(const jobs::ExploreJob& job, const jobs::Explored& seen);
/// Returns what is in the prices of the plan, and which wish on the cost delivery breaks.
std::vector<std::string> plan_notes(const jobs::ExploreJob& job, const jobs::Explored& seen);
/// Returns the last day to order with its reckoning, or an empty text.
std::string order_words(const jobs::Explored& seen);

/// Return the truly different blends of one bar, its curves, and what prices may do.
Rows blend_rows(const jobs::ExploreJob& job, const jobs::ExploreBar& bar,
                const jobs::ExploredBar& seen);
Rows curve_rows(const jobs::ExploreJob& job, const jobs::ExploreBar& bar,
                const jobs::ExploredBar& seen);
Rows traced_rows(const jobs::ExploreJob& job, const jobs::ExploredBar& seen,
                 const jobs::TracedTrade& traced);
Rows room_rows(const jobs::ExploreJob& job, const jobs::ExploredBar& seen);
Rows worth_rows(const jobs::ExploreJob& job, const jobs::ExploredBar& seen);

/// Returns what every bar comes to when its wishes are kept for more and more lots.
Rows sureness_rows(const jobs::ExploreJob& job, const jobs::Explored& seen);
/// Returns what there is to say below it, a sentence.
std::string sureness_words(const jobs::Explored& seen);
/// Returns "typical lots", "80 lots in 100", "the worst lots".
std::string lots_words(const targets::SureLevel& level);

/// Returns for which lots the wishes of a range count, a sentence; empty: for typical ones.
std::string level_words(const jobs::ExploreJob& job);
/// Returns whether a bar's price of sureness is told in another figure than its cost.
bool has_other_goal(const jobs::SurenessPrice& price);
/// Returns whether wishes of one brief are kept at different levels.
bool mixed_levels(const targets::Brief& brief);

/// Returns "108 bars in 3 batches of 36".
std::string batches_words(const jobs::ExploreBar& bar);
/// Returns what was proved of the first blend and the others, a sentence.
std::string blends_proof(const jobs::ExploredBar& seen);
/// Returns "Every point is proved." or what was not.
std::string curve_proof(const explain::Curve& curve);

/// Returns a side of a traced curve with its unit: "cost, EUR per kg".
std::string side_words(const jobs::ExploreJob& job, const jobs::TradeSide& side);

/// Returns the oil cost of a blend, currency units per kg of oils, by list and shelf.
double cost_per_kg(const jobs::ExploreJob& job, std::span<const int> steps, int all);

/// Returns the name of a candidate.
const std::string& oil_name(const jobs::ExploreJob& job, std::size_t oil);

/// Returns what each line of the purchase costs at the door, in whole cents that add up to the
/// cash out; one per buy of the plan.
std::vector<double> landed_sums(const jobs::Explored& seen);

}  // namespace barwright::app
