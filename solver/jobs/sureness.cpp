#include "solver/jobs/sureness.hpp"

#include <algorithm>

#include "core/units/error.hpp"
#include "solver/jobs/mannerly.hpp"
#include "solver/optimise/within.hpp"

namespace barwright::jobs {
namespace {

using targets::SureLevel;
using targets::Sureness;

// Multiply-adds for one level: about a quarter of a second, for a question nobody asked.
constexpr std::uint64_t kLevelWork = 250'000'000;

// How a result stands in its typical formulation.
AtLevel told(const BlendJob& typical, const BlendResult& result, const SureLevel& level) {
  AtLevel out;
  out.level = level;
  out.status = result.answer.status;
  if (!result.has_blend()) return out;
  if (result.answer.status != optimise::Status::optimal && !result.answer.goals.empty()) {
    const auto& first = result.answer.goals.front();
    const optimise::Goal& goal = result.formulation.problem.goals.front();
    out.open = std::max(0.0, goal.placed(first.value) - goal.placed(first.bound));
  }
  double cost = 0;
  bool priced = true;
  for (const std::size_t i : result.used) {
    const auto& price = typical.candidates.oils[i].price_per_kg;
    priced = priced && price.has_value();
    cost += result.shares[i] * price.value_or(0);
  }
  if (priced) out.cost_per_kg = cost;
  if (priced && result.assumed.bars > 0)
    out.cost_per_bar = cost * result.recipe.oils_grams / 1000 / result.assumed.bars;
  formulate::Assumed real = result.assumed;
  real.settings = result.settings;
  real.held_back.clear();
  const formulate::Formulation formulation = formulation_of(typical, real);
  if (!formulation.goals.empty() && !formulation.goals.front().tie_breaker &&
      formulation.fewest_oils_at != 0)
    out.goal = formulation.goals.front().shown(formulation.problem.goals.front().at(result.shares));
  return out;
}

}  // namespace

BlendJob at_level(const BlendJob& job, const SureLevel& level) {
  BlendJob out = job;
  out.brief.sureness = level;
  for (auto& wish : out.brief.wishes) {
    // A soluble share can be kept for typical lots only, and stands so in every level.
    const bool typical_only = wish.subject.kind == targets::Subject::Kind::property &&
                              !targets::PropertyModel::has_form(wish.subject.property);
    if (typical_only) {
      wish.level = SureLevel{Sureness::typical};
    } else {
      wish.level.reset();
    }
  }
  return out;
}

bool asks_for_sureness(const targets::Brief& brief) {
  return !(brief.sureness == Sureness::typical) ||
         std::any_of(brief.wishes.begin(), brief.wishes.end(), [](const targets::Wish& wish) {
           return wish.level && !(*wish.level == Sureness::typical);
         });
}

SurenessPrice price_of_sureness(const BlendJob& job, const BlendResult& asked, int given,
                                std::span<const double> shares,
                                const optimise::SearchOptions& options) {
  const BlendJob typical = at_level(job, {Sureness::typical});
  SurenessPrice out;
  std::optional<int> first;
  const auto gave_way = [&](int by) {
    if (out.levels.back().status == optimise::Status::infeasible) return;
    if (!first) first = by;
    out.levels.back().manners_gave_way = by > *first;
  };
  std::uint64_t to_come = shares.size() + 3;
  const auto add = [&](const SureLevel& level) {
    // Each level its part of what work is left: none starves those after it.
    const std::uint64_t left = optimise::work_left(options) / std::max<std::uint64_t>(1, to_come--);
    const optimise::Within part(options, std::min(left, kLevelWork));
    try {
      const Mannerly found = find_mannerly(at_level(job, level), part.options(), false);
      out.levels.push_back(told(typical, found.result, level));
      gave_way(found.given);
    } catch (const core::Refusal&) {  // no safe lye for that blend: nothing to tell
      out.levels.push_back({.level = level});
    }
  };
  const auto add_asked = [&] {
    out.levels.push_back(told(typical, asked, job.brief.sureness));
    out.levels.back().asked = true;
    if (asked.has_blend()) gave_way(given);
  };
  const bool mixed =
      std::any_of(job.brief.wishes.begin(), job.brief.wishes.end(), [&](const targets::Wish& wish) {
        return wish.level && wish.level->kind != job.brief.sureness.kind;
      });
  // The brief as it stands has its place when all of it is at one level.
  const auto level = [&](const SureLevel& one) {
    const bool same = !mixed && one.kind == job.brief.sureness.kind &&
                      (one.kind != Sureness::likely || one.share == job.brief.sureness.share);
    same ? add_asked() : add(one);
  };
  level({Sureness::typical});
  if (mixed) add_asked();
  std::vector<double> rising(shares.begin(), shares.end());
  if (!mixed && job.brief.sureness == Sureness::likely) rising.push_back(job.brief.sureness.share);
  std::sort(rising.begin(), rising.end());
  rising.erase(std::unique(rising.begin(), rising.end()), rising.end());
  for (const double share : rising) level({Sureness::likely, share});
  level({Sureness::worst_case});
  if (!asked.formulation.goals.empty() && !asked.formulation.goals.front().tie_breaker) {
    const formulate::Formulation formulation = formulation_of(typical, asked.assumed);
    out.goal = formulation.goals.front().words;
    out.goal_unit = formulation.goals.front().unit;
  }
  return out;
}

}  // namespace barwright::jobs
