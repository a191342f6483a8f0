#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/units/date.hpp"
#include "oils/books/price_list.hpp"
#include "oils/books/shelf.hpp"
#include "solver/explain/alternatives.hpp"
#include "solver/explain/curve.hpp"
#include "solver/jobs/blend_job.hpp"
#include "solver/jobs/buying/buying_plan.hpp"
#include "solver/jobs/buying/landed_plan.hpp"
#include "solver/jobs/explore/explore_curves.hpp"
#include "solver/jobs/explore/explore_prices.hpp"
#include "solver/jobs/mannerly.hpp"
#include "solver/jobs/sureness.hpp"
#include "targets/brief/explore_brief.hpp"

namespace barwright::jobs {

/// One bar of the range as a question of its own.
struct ExploreBar {
  std::string what_for;
  BlendJob job;
  int bars = 0;     ///< wanted in all
  int batches = 0;  ///< to make them
  int bars_per_batch = 0;
};

/// A look around, read and resolved.
struct ExploreJob {
  targets::ExploreBrief brief;
  std::vector<ExploreBar> bars;
  std::vector<double> stock_grams;                   ///< per candidate
  std::vector<std::vector<oils::PricedPack>> packs;  ///< per candidate
  std::vector<double> price_per_kg;                  ///< per candidate
  double tax = 0;                                    ///< fraction that is in the list's prices
  std::vector<oils::SkippedRow> skipped;
  std::vector<Trade> trades;  ///< curves asked for beside feel against cost
  double bar_grams = 0;       ///< > 0: assumed, g as cut
  const formulate::Candidates& candidates() const { return bars.front().job.candidates; }
};

/// Returns the job of an explore brief. The price list is read as it says itself, or as the shelf's
/// `lists:` say. Errors: InputError.
ExploreJob explore_job(targets::ExploreBrief brief, const oils::Library& library,
                       const std::optional<oils::Shelf>& shelf, bool skip_wrong_rows);

/// What a price may do.
struct PriceRoom {
  int oil = -1;  ///< candidate
  double now = 0;
  TurningPrice turns;
};

/// One bar looked at.
struct ExploredBar {
  std::shared_ptr<const BlendJob> job;  ///< with the manners kept in it
  MannersTold manners;
  BlendResult found;
  explain::Alternatives others;     ///< the best first, each a tenth of the oils away from the rest
  explain::Curve curve;             ///< feel (or the first wish of best) against cost
  std::vector<TracedTrade> traced;  ///< one per ExploreJob::trades
  std::vector<int> cheapest;        ///< steps of the cheapest blend, which the rest is about
  std::vector<PriceRoom> room;      ///< oils in it: how far each may rise
  std::vector<PriceRoom> worth;  ///< oils not on the shelf, not in the blend: what they are worth
  /// What keeping its wishes for more lots than typical ones costs; absent: none of them depends on
  /// the lots, or nothing fits even for typical ones.
  std::optional<SurenessPrice> sureness;
};

/// What weighing a bar of the plan said.
struct PlannedBlend {
  struct Miss {
    std::string words;  ///< the wish
    double by = 0;
    std::string unit;
  };
  std::vector<Miss> missed;  ///< nearly always none
  std::string refused;       ///< why it cannot be made safely; empty: it can
};

struct Explored {
  std::vector<ExploredBar> bars;
  std::optional<BuyingPlan> plan;
  int plan_steps = 0;  ///< in its blends: the finest that any bar's manners came to
  /// Bars in whose planned blend more oils stand than by themselves: no purchase was found else.
  std::vector<bool> more_oils;
  std::vector<PlannedBlend> planned;  ///< per bar, where a plan is found
  LandedPlan landed;                  ///< what the plan's packs and bars cost, delivery in it
  std::string no_plan;                ///< a sentence, when there is none
  std::optional<core::Day> order_by;  ///< last day to order
  int cure_days = 0, making_days = 0, delivery_days = 0;
};

/// Returns all there is to see. Bars whose wishes collide have no blend, and then no plan.
Explored explore(const ExploreJob& job, int points, const optimise::SearchOptions& options);

/// Days from order to door where nothing is said (judgement).
inline constexpr int kDeliveryDays = 7;

}  // namespace barwright::jobs
