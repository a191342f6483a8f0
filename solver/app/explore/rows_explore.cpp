#include "solver/app/explore/rows_explore.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/trade/money.hpp"
#include "core/units/weight_text.hpp"
#include "solver/app/blend/blend_words.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/formulate/claim.hpp"

namespace barwright::app {
namespace {

// Most of these are of no interest: those worth most are shown.
constexpr std::size_t kMostShown = 6;
constexpr std::size_t kMostNamed = 3;

const std::string& currency(const jobs::ExploreJob& job) { return job.candidates().currency; }

std::string per_kg(const jobs::ExploreJob& job, double value) {
  return money(value, currency(job)) + "/kg";
}

std::string blend(const jobs::ExploreJob& job, std::span<const int> steps, int all) {
  return blend_words(job.candidates().oils, steps, all);
}

std::string count_of(int number, const char* one, const char* many) {
  return fmt::format("{} {}", number, number == 1 ? one : many);
}

int all_steps(const jobs::ExploredBar& seen) { return seen.found.formulation.problem.steps; }

// kg of oils in one bar.
double oils_of_bar(const jobs::ExploreBar& bar, const jobs::ExploredBar& seen) {
  return seen.found.recipe.oils_grams / 1000 / bar.bars_per_batch;
}

// Whether a figure might still be bettered by what its digits show.
bool is_open(const jobs::AtLevel& at, const jobs::SurenessPrice& price) {
  constexpr double kHalfACent = 0.005;
  if (at.status == optimise::Status::undecided) return true;
  return at.status == optimise::Status::feasible &&
         (has_other_goal(price) || at.open >= kHalfACent);
}

// What the blend that takes over has more of.
std::string more_of(const jobs::ExploreJob& job, std::span<const int> best,
                    std::span<const int> next) {
  std::vector<std::size_t> gains;
  for (std::size_t i = 0; i < next.size() && i < best.size(); ++i) {
    if (next[i] > best[i]) gains.push_back(i);
  }
  std::stable_sort(gains.begin(), gains.end(), [&](std::size_t a, std::size_t b) {
    return next[a] - best[a] > next[b] - best[b];
  });
  std::string out;
  for (std::size_t k = 0; k < gains.size() && k < kMostNamed; ++k) {
    out += (out.empty() ? "more " : ", ") + oil_name(job, gains[k]);
  }
  return out;
}

const oils::PricedPack& pack_of(const jobs::ExploreJob& job, const jobs::Buy& buy) {
  return job.packs[static_cast<std::size_t>(buy.oil)][static_cast<std::size_t>(buy.pack)];
}

}  // namespace

double cost_per_kg(const jobs::ExploreJob& job, std::span<const int> steps, int all) {
  double sum = 0;
  for (std::size_t i = 0; i < steps.size(); ++i) sum += job.price_per_kg[i] * steps[i] / all;
  return sum;
}

std::string side_words(const jobs::ExploreJob& job, const jobs::TradeSide& side) {
  switch (side.kind) {
    case jobs::TradeSide::Kind::cost:
      return "cost, " + currency(job) + (currency(job).empty() ? "per kg" : " per kg");
    case jobs::TradeSide::Kind::feel:
      return "feel, steps";
    case jobs::TradeSide::Kind::property:
      break;
  }
  return side.name + ", points";
}

Rows buy_rows(const jobs::ExploreJob& job, const jobs::Explored& seen) {
  const auto& plan = *seen.plan;
  Rows out{"rlrrr", {{"packs", "what", "pack", "price", "at your door"}}};
  for (std::size_t k = 0; k < plan.buys.size(); ++k) {
    const auto& pack = pack_of(job, plan.buys[k]);
    out.rows.push_back({fmt::format("{} x", plan.buys[k].count), pack.product,
                        pack_words(pack.size, pack.grams),
                        money(plan.buys[k].count * pack.price, currency(job)),
                        per_kg(job, seen.landed.buy_per_kg[k])});
  }
  out.rows.push_back({"", "delivery", "", money(plan.delivery, currency(job))});
  out.rows.push_back({"", "cash out", "", money(plan.cash(), currency(job))});
  return out;
}

Rows range_rows(const jobs::ExploreJob& job, const jobs::Explored& seen) {
  Rows out{"lrl", {{"bar", "oils, a bar", "blend"}}};
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    out.rows.push_back({job.bars[b].what_for, money(seen.landed.bar_cost[b], currency(job)),
                        blend(job, seen.plan->steps[b], seen.plan_steps)});
  }
  return out;
}

Rows left_rows(const jobs::ExploreJob& job, const jobs::Explored& seen) {
  Rows out{"lrr", {{"left of what is bought", "weight", "cost"}}};
  double worth = 0;
  for (std::size_t i = 0; i < seen.landed.left_grams.size(); ++i) {
    if (seen.landed.left_grams[i] < 1) continue;
    worth += seen.landed.left_worth[i];
    out.rows.push_back({oil_name(job, i), core::round_grams(seen.landed.left_grams[i]),
                        money(seen.landed.left_worth[i], currency(job))});
  }
  if (out.rows.size() > 2) out.rows.push_back({"in all", "", money(worth, currency(job))});
  return out;
}

std::vector<std::string> plan_notes(const jobs::ExploreJob& job, const jobs::Explored& seen) {
  std::vector<std::string> out;
  const auto& plan = *seen.plan;
  out.emplace_back(plan.proved()
                       ? "Proved: no other purchase of these packs costs less and makes the range."
                       : "Not proved the least: the search was cut short.");
  std::string in_prices;
  if (job.tax > 0) in_prices = fmt::format("Prices hold {} tax. ", percent(job.tax));
  if (!plan.buys.empty()) {
    out.push_back(in_prices +
                  fmt::format("What it costs at your door holds delivery too, spread by {}.",
                              job.brief.money.delivery_by_value ? "value" : "weight"));
  }
  for (std::size_t b = 0; b < seen.planned.size(); ++b) {
    for (const auto& miss : seen.planned[b].missed) {
      out.push_back(fmt::format("! {}: weighed out, this misses '{}' by {:.2g} {}.",
                                job.bars[b].what_for, miss.words, miss.by, miss.unit));
    }
    if (!seen.planned[b].refused.empty())
      out.push_back(fmt::format("! {}: {}", job.bars[b].what_for, seen.planned[b].refused));
    if (seen.more_oils[b])
      out.push_back(fmt::format("! {}: more oils than by itself; no purchase with fewer was found.",
                                job.bars[b].what_for));
  }
  for (const auto& wish : job.brief.cost) {
    if (wish.subject.per != targets::Per::bar || !wish.high) continue;
    for (std::size_t b = 0; b < job.bars.size(); ++b) {
      if (seen.landed.bar_cost[b] <= wish.high->value + 0.005) continue;
      out.push_back(fmt::format("! {}: {} a bar with delivery in it; '{}' is kept without it.",
                                job.bars[b].what_for, money(seen.landed.bar_cost[b], currency(job)),
                                wish.written.text));
    }
  }
  return out;
}

std::string order_words(const jobs::Explored& seen) {
  if (!seen.order_by) return {};
  return fmt::format("Order by {} {}: {} to the door (assumed), {} of making, {} of cure.",
                     core::weekday(*seen.order_by), core::text(*seen.order_by),
                     count_of(seen.delivery_days, "day", "days"),
                     count_of(seen.making_days, "day", "days"),
                     count_of(seen.cure_days, "day", "days"));
}

Rows blend_rows(const jobs::ExploreJob& job, const jobs::ExploreBar& bar,
                const jobs::ExploredBar& seen) {
  Rows out{"lrrrl", {{"", "oils", "a bar", "differs by", "blend"}}};
  for (std::size_t k = 0; k < seen.others.found.size(); ++k) {
    const auto& one = seen.others.found[k];
    const double cost = cost_per_kg(job, one.answer.steps, all_steps(seen));
    out.rows.push_back({fmt::format("{}", k + 1), per_kg(job, cost),
                        money(cost * oils_of_bar(bar, seen), currency(job)),
                        k == 0 ? "" : percent(one.distance, 0),
                        blend(job, one.answer.steps, all_steps(seen))});
  }
  return out;
}

std::string blends_proof(const jobs::ExploredBar& seen) {
  // The first of the others is the best of the question as it was searched; what that proves of the
  // wishes as written, the weighed answer says.
  const bool weighed = formulate::claim_of(seen.found.formulation, seen.found.answer).proved;
  const optimise::Answer& first =
      weighed && !seen.others.found.empty() ? seen.others.found.front().answer : seen.found.answer;
  const formulate::Claim claim = formulate::claim_of(seen.found.formulation, first);
  if (!claim.proved) return unproved_words(first);
  const std::string better = formulate::better_words(claim);
  return "Proved: none keeps the wishes and is " +
         (better.empty() ? "better than the first" : better) +
         (seen.others.proved ? "; the others are each the best that differs by a tenth of the oils."
                             : ". The others were not all proved in the time given.");
}

std::string curve_proof(const explain::Curve& curve) {
  return curve.proved ? "Every point is proved." : "Not every point was proved in the time given.";
}

Rows curve_rows(const jobs::ExploreJob& job, const jobs::ExploreBar& bar,
                const jobs::ExploredBar& seen) {
  Rows out{"lrrrl", {{"", "oils", "a bar", "feel", "blend"}}};
  int number = 0;
  for (const auto& point : seen.curve.points) {
    if (!point.new_blend) continue;
    out.rows.push_back({fmt::format("{}", ++number), per_kg(job, point.second),
                        money(point.second * oils_of_bar(bar, seen), currency(job)),
                        fmt::format("{:.2f}", std::sqrt(std::max(0.0, point.first))),
                        blend(job, point.answer.steps, all_steps(seen))});
  }
  return out;
}

Rows traced_rows(const jobs::ExploreJob& job, const jobs::ExploredBar& seen,
                 const jobs::TracedTrade& traced) {
  Rows out{"lrrl",
           {{"", side_words(job, traced.trade.up), side_words(job, traced.trade.across), "blend"}}};
  int number = 0;
  for (std::size_t k = 0; k < traced.seen.size(); ++k) {
    const auto& point = traced.curve.points[k];
    if (!point.new_blend) continue;
    out.rows.push_back({fmt::format("{}", ++number), fmt::format("{:.2f}", traced.seen[k].second),
                        fmt::format("{:.2f}", traced.seen[k].first),
                        blend(job, point.answer.steps, all_steps(seen))});
  }
  return out;
}

Rows room_rows(const jobs::ExploreJob& job, const jobs::ExploredBar& seen) {
  Rows out{"lrrl", {{"oil", "now", "may rise to", "then"}}};
  for (const auto& room : seen.room) {
    const auto& turns = room.turns;
    out.rows.push_back(
        {oil_name(job, static_cast<std::size_t>(room.oil)), per_kg(job, room.now),
         !turns.proved  ? "not settled"
         : turns.per_kg ? per_kg(job, *turns.per_kg)
                        : "any price",
         turns.proved && turns.per_kg ? more_of(job, seen.cheapest, turns.next) : ""});
  }
  return out;
}

Rows worth_rows(const jobs::ExploreJob& job, const jobs::ExploredBar& seen) {
  Rows out{"lrr", {{"oil", "comes in below", "costs"}}};
  std::vector<const jobs::PriceRoom*> order;
  for (const auto& worth : seen.worth) {
    if (worth.turns.per_kg && worth.turns.proved) order.push_back(&worth);
  }
  // Nearest to their price first.
  std::stable_sort(order.begin(), order.end(), [](const auto* a, const auto* b) {
    return *a->turns.per_kg / a->now > *b->turns.per_kg / b->now;
  });
  for (std::size_t k = 0; k < order.size() && k < kMostShown; ++k) {
    out.rows.push_back({oil_name(job, static_cast<std::size_t>(order[k]->oil)),
                        per_kg(job, *order[k]->turns.per_kg), per_kg(job, order[k]->now)});
  }
  return out;
}

bool has_other_goal(const jobs::SurenessPrice& price) {
  return !price.goal.empty() && price.goal != "cheapest";
}

bool mixed_levels(const targets::Brief& brief) {
  return std::any_of(brief.wishes.begin(), brief.wishes.end(), [&](const targets::Wish& wish) {
    return wish.level && !(*wish.level == brief.sureness.kind);
  });
}

std::string lots_words(const targets::SureLevel& level) {
  switch (level.kind) {
    case targets::Sureness::typical:
      return "typical lots";
    case targets::Sureness::worst_case:
      return "the worst lots";
    case targets::Sureness::likely:
      break;
  }
  return fmt::format("{:.4g} lots in 100", 100 * level.share);
}

std::string level_words(const jobs::ExploreJob& job) {
  const auto& level = job.brief.sureness;
  if (level == targets::Sureness::typical) return {};
  return "Wishes count for " +
         (level == targets::Sureness::worst_case
              ? std::string("every lot within the published ranges")
              : lots_words(level)) +
         ", where they do not say otherwise; feel, for typical lots.";
}

Rows sureness_rows(const jobs::ExploreJob& job, const jobs::Explored& seen) {
  const bool goals = std::any_of(seen.bars.begin(), seen.bars.end(), [](const auto& one) {
    return one.sureness && has_other_goal(*one.sureness);
  });
  Rows out{"llrrl", {{"bar", "kept for", "oils", "a bar"}}};
  if (goals) {
    out.align = "llrrrl";
    out.rows[0].emplace_back("at typical lots");
  }
  out.rows[0].emplace_back("");
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    const auto& one = seen.bars[b];
    if (!one.sureness) continue;
    std::size_t number = 0;
    for (const auto& at : one.sureness->levels) {
      // Below the bar's name stands what is best of it, where that is not the cost.
      std::string name = number == 0 ? job.bars[b].what_for : "";
      if (number == 1 && has_other_goal(*one.sureness)) name = "(" + one.sureness->goal + ")";
      ++number;
      std::vector<std::string> row = {name, lots_words(at.level)};
      if (at.asked && mixed_levels(job.bars[b].job.brief)) row[1] = "each as it says";
      const bool fits = at.cost_per_kg.has_value();
      row.push_back(fits ? per_kg(job, *at.cost_per_kg) : "");
      row.push_back(at.cost_per_bar ? money(*at.cost_per_bar, currency(job)) : "");
      if (goals) {
        const bool told = at.goal && has_other_goal(*one.sureness);
        row.push_back(told ? fmt::format("{:.1f} {}", *at.goal, one.sureness->goal_unit) : "");
      }
      std::string remark = at.status == optimise::Status::infeasible ? "nothing fits"
                           : !fits                                   ? "nothing found so far"
                           : is_open(at, *one.sureness)              ? "so far"
                                                                     : "";
      if (at.manners_gave_way)
        remark += (remark.empty() ? "" : ", ") + std::string("manners give way");
      if (at.asked) remark += (remark.empty() ? "" : ", ") + std::string("as asked");
      row.push_back(remark);
      out.rows.push_back(std::move(row));
    }
  }
  return out;
}

std::string sureness_words(const jobs::Explored& seen) {
  const bool cut = std::any_of(seen.bars.begin(), seen.bars.end(), [](const auto& one) {
    return one.sureness && std::any_of(one.sureness->levels.begin(), one.sureness->levels.end(),
                                       [](const jobs::AtLevel& at) {
                                         return at.status == optimise::Status::feasible ||
                                                at.status == optimise::Status::undecided;
                                       });
  });
  return std::string(
             "Lots of an oil differ. 'sureness: likely' or 'sureness: worst-case' in the brief "
             "keeps the wishes for so many of them.") +
         (cut ? " So far: not proved the least." : "");
}

std::string batches_words(const jobs::ExploreBar& bar) {
  return fmt::format("{} in {} of {}", count_of(bar.bars, "bar", "bars"),
                     count_of(bar.batches, "batch", "batches"), bar.bars_per_batch);
}

const std::string& oil_name(const jobs::ExploreJob& job, std::size_t oil) {
  return job.candidates().oils[oil].oil.name;
}

std::vector<double> landed_sums(const jobs::Explored& seen) {
  std::vector<double> out;
  if (seen.landed.buys.empty()) return out;
  for (const auto sum : core::rounded_together(seen.landed.buys)) out.push_back(core::units(sum));
  return out;
}

}  // namespace barwright::app
