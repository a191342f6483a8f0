#include "solver/jobs/explore/explore_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "solver/recipe/cure_time.hpp"

namespace barwright::jobs {
namespace {

// Plans and weighings take turns until they agree; two or three rounds do, more is a cycle.
constexpr int kMostRounds = 5;
// As find_blend: a superfat this near to the assumed one changes no property by a tenth of a point.
constexpr double kSettledSuperfat = 2e-4;

// What is assumed of each bar while the range is planned.
struct Ground {
  formulate::Assumed assumed;
  double oil_grams = 0;  ///< of one batch
};

BuyingQuestion buying(const ExploreJob& job, const std::vector<Ground>& ground) {
  BuyingQuestion out;
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    PlannedBar planned;
    planned.problem = formulation_of(job.bars[b].job, ground[b].assumed).problem;
    planned.problem.most_oils = 0;  // counted over the whole range
    planned.oil_grams = ground[b].oil_grams * job.bars[b].batches;
    out.bars.push_back(std::move(planned));
  }
  out.stock_grams = job.stock_grams;
  out.packs = job.packs;
  out.worth_per_kg = job.price_per_kg;
  const auto& brief = job.brief;
  out.most_oils = brief.most_oils.value_or(0);
  out.most_new = brief.most_new_oils.value_or(-1);
  if (brief.money.delivery_flat) out.delivery.flat = brief.money.delivery_flat->amount;
  if (brief.money.delivery_free_over) {
    out.delivery.free_over = brief.money.delivery_free_over->amount;
  }
  if (brief.money.spend_now) out.most_cash = brief.money.spend_now->amount;
  return out;
}

void set_days(const ExploreJob& job, Explored& out) {
  if (!job.brief.plan || !job.brief.plan->ready_for) return;
  int weeks = 4, batches = 0;
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    batches += job.bars[b].batches;
    const auto& found = out.bars[b].found;
    if (found.recipe.total_grams > 0) {
      weeks = std::max(weeks,
                       recipe::cure_weeks(job.bars[b].job.model, found.composition, found.settings,
                                          found.recipe.products.water / found.recipe.total_grams));
    }
  }
  out.cure_days = 7 * weeks;
  out.making_days = batches + 1;  // one batch a day, cut the day after
  out.delivery_days = kDeliveryDays;
  const auto& ready = *job.brief.plan->ready_for;
  const auto day = core::find_day(ready.text());
  if (day) {
    out.order_by = core::days_after(*day, -(out.cure_days + out.making_days + out.delivery_days));
  }
}

// Weighs every bar of a plan and learns from it. Returns whether all is as was assumed.
bool weigh_plan(const ExploreJob& job, const BuyingPlan& plan, std::vector<Ground>& ground,
                std::vector<PlannedBlend>& blends) {
  bool agreed = true;
  blends.clear();
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    Ground& here = ground[b];
    PlannedBlend blend;
    try {
      const BlendResult weighed = weighed_blend(job.bars[b].job, here.assumed, plan.steps[b]);
      for (const auto& verdict : weighed.verdicts) {
        if (verdict.missed == 0) continue;
        const auto& asked = weighed.formulation.asked[static_cast<std::size_t>(verdict.asked)];
        blend.missed.push_back({asked.words, verdict.missed * asked.per_unit, asked.unit});
      }
      const double superfat = here.assumed.settings.superfat;
      const bool settled = std::abs(weighed.settings.superfat - superfat) <= kSettledSuperfat &&
                           weighed.recipe.oils_grams == here.oil_grams;
      agreed = agreed && settled && blend.missed.empty();
      if (settled) {
        hold_back(weighed, here.assumed.held_back);
      } else {
        here.assumed.settings = weighed.settings;
      }
      here.assumed.oil_grams = here.oil_grams = weighed.recipe.oils_grams;
    } catch (const core::Refusal& refusal) {
      blend.refused = refusal.reason();
      agreed = false;
    }
    blends.push_back(std::move(blend));
  }
  return agreed;
}

bool is_held(const std::vector<Ground>& ground) {
  return std::any_of(ground.begin(), ground.end(),
                     [](const Ground& one) { return !one.assumed.held_back.empty(); });
}

}  // namespace

void plan_range(const ExploreJob& job, const optimise::SearchOptions& options, Explored& out) {
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    const auto& found = out.bars[b].found;
    if (found.has_blend()) continue;
    const std::string& what = job.bars[b].what_for;
    out.no_plan = found.answer.status == optimise::Status::infeasible
                      ? "No plan: the wishes for the " + what + " collide."
                  : found.too_coarse
                      ? "No plan: rounded to the scale's steps, no blend for the " + what +
                            " keeps every wish."
                      : "No plan: no blend for the " + what + " was found in the time given.";
    return;
  }
  set_days(job, out);
  std::vector<Ground> ground;
  for (const auto& bar : out.bars) {
    ground.push_back({bar.found.assumed, bar.found.recipe.oils_grams});
    ground.back().assumed.held_back.clear();
  }
  BuyingQuestion question;
  // The bound on cash for the wishes as written; holding them tighter proves nothing of them.
  double least = -optimise::kInfinity;
  for (int round = 1; round <= kMostRounds; ++round) {
    const bool held = is_held(ground);
    BuyingQuestion asked = buying(job, ground);
    BuyingPlan plan = plan_buying(asked, options);
    if (!plan.found && out.plan && out.plan->found) {
      // A plan that misses by a hair what its notes say is more than none.
      out.plan->bound = -optimise::kInfinity;
      break;
    }
    if (held)
      plan.bound = std::min(plan.found ? plan.cash() : optimise::kInfinity, least);
    else
      least = plan.bound;
    out.plan = std::move(plan);
    question = std::move(asked);
    if (!out.plan->found || weigh_plan(job, *out.plan, ground, out.planned)) break;
  }
  if (!out.plan->found) {
    out.no_plan = out.plan->proved()
                      ? "Proved: no purchase within these limits lets the whole range be made."
                      : "No purchase was found in the time given; none is not proved.";
    return;
  }
  // What breaks a wish once it is weighed proves nothing; its notes say so.
  for (const auto& blend : out.planned) {
    if (!blend.missed.empty() || !blend.refused.empty()) out.plan->bound = -optimise::kInfinity;
  }
  std::vector<int> bars_made;
  for (const auto& bar : job.bars) bars_made.push_back(bar.batches * bar.bars_per_batch);
  out.landed =
      landed_plan(question, *out.plan, bars_made,
                  job.brief.money.delivery_by_value ? oils::Spread::value : oils::Spread::weight);
}

}  // namespace barwright::jobs
