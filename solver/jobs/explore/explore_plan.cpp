#include "solver/jobs/explore/explore_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "solver/recipe/cure_time.hpp"

namespace barwright::jobs {
namespace {

// Plans and weighings take turns until they agree; two or three rounds do, more is a cycle.
constexpr int kMostRounds = 5;
// As find_blend: a superfat this near to the assumed one changes no property by a tenth of a point.
constexpr double kSettledSuperfat = 2e-4;

// What is assumed of each bar while the range is planned.
struct Ground {
  BlendJob job;  ///< with its manners, in the plan's steps
  formulate::Assumed assumed;
  double oil_grams = 0;  ///< of one batch
};

// The joint question holds every bar in one number of steps: the finest that takes each bar's own.
int common_steps(const std::vector<ExploredBar>& bars) {
  int all = 1;
  for (const auto& bar : bars) all = std::lcm(all, bar.found.formulation.problem.steps);
  return all;
}

BlendJob in_steps(const BlendJob& job, int steps) {
  BlendJob out = job;
  if (!out.brief.rules.step_grams) out.brief.rules.step_share = 1.0 / steps;
  return out;
}

// `most_oils` > 0: over the whole range at most so many.
BuyingQuestion buying(const ExploreJob& job, const std::vector<Ground>& ground, int most_oils) {
  BuyingQuestion out;
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    PlannedBar planned;
    planned.problem = formulation_of(ground[b].job, ground[b].assumed).problem;
    planned.problem.most_oils = 0;  // counted over the whole range
    planned.oil_grams = ground[b].oil_grams * job.bars[b].batches;
    out.bars.push_back(std::move(planned));
  }
  out.stock_grams = job.stock_grams;
  out.packs = job.packs;
  out.worth_per_kg = job.price_per_kg;
  const auto& brief = job.brief;
  out.most_oils = brief.most_oils.value_or(most_oils);
  if (most_oils > 0) out.most_oils = std::min(out.most_oils, most_oils);
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
      const BlendResult weighed = weighed_blend(here.job, here.assumed, plan.steps[b]);
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

int most_oils_of(const Ground& here) {
  return formulation_of(here.job, here.assumed).problem.most_oils;
}

// Per bar, whether it has more oils than its limits and manners let it have by itself: the joint
// question counts oils over the whole range only.
std::vector<bool> too_many_oils(const BuyingPlan& plan, const std::vector<Ground>& ground) {
  std::vector<bool> out;
  for (std::size_t b = 0; b < ground.size(); ++b) {
    const int most = most_oils_of(ground[b]);
    const auto used = std::count_if(plan.steps[b].begin(), plan.steps[b].end(),
                                    [](int steps) { return steps > 0; });
    out.push_back(most > 0 && used > most);
  }
  return out;
}

int fewest_of(const std::vector<Ground>& ground) {
  int out = 0;
  for (const auto& here : ground) {
    const int most = most_oils_of(here);
    if (most > 0) out = out == 0 ? most : std::min(out, most);
  }
  return out;
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
  out.plan_steps = common_steps(out.bars);
  for (const auto& bar : out.bars) {
    ground.push_back(
        {in_steps(*bar.job, out.plan_steps), bar.found.assumed, bar.found.recipe.oils_grams});
    ground.back().assumed.held_back.clear();
  }
  BuyingQuestion question;
  // The bound on cash for the wishes as written; holding them tighter proves nothing of them.
  double least = -optimise::kInfinity;
  int most_oils = 0;  // over the range, where a bar came to too many
  for (int round = 1; round <= kMostRounds; ++round) {
    const bool held = is_held(ground) || most_oils > 0;
    BuyingQuestion asked = buying(job, ground, most_oils);
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
    if (!out.plan->found) break;
    const bool agreed = weigh_plan(job, *out.plan, ground, out.planned);
    out.more_oils = too_many_oils(*out.plan, ground);
    const bool many = std::count(out.more_oils.begin(), out.more_oils.end(), true) > 0;
    if (agreed && (!many || most_oils > 0)) break;
    if (many) most_oils = fewest_of(ground);
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
