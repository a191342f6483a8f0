#include "solver/jobs/blend_job.hpp"

#include <algorithm>
#include <cmath>

#include "core/units/error.hpp"
#include "solver/formulate/claim.hpp"
#include "solver/formulate/goal_search.hpp"
#include "solver/formulate/subject.hpp"
#include "solver/jobs/blend_pot.hpp"
#include "solver/jobs/settle.hpp"
#include "solver/jobs/sureness.hpp"
#include "solver/jobs/weighed_parts.hpp"
#include "solver/recipe/bar_settings.hpp"
#include "solver/recipe/recipe_request.hpp"
#include "solver/recipe/sizing.hpp"

namespace barwright::jobs {
namespace {

// In a wish's own unit, beyond every tolerance of the search and below every digit shown.
constexpr double kJustOutside = 1e-5;

}  // namespace

bool hold_back(const BlendResult& result, std::vector<double>& held_back) {
  const formulate::Formulation& formulation = result.formulation;
  const std::vector<double> exact = formulation.problem.shares(result.answer.steps);
  bool any = false;
  // Measures and verdicts stand in the same order.
  for (std::size_t v = 0; v < result.verdicts.size(); ++v) {
    const auto& verdict = result.verdicts[v];
    if (verdict.missed == 0) continue;
    any = true;
    const int wish = formulation.asked[static_cast<std::size_t>(verdict.asked)].wish;
    if (wish < 0) continue;
    held_back.resize(std::max(held_back.size(), static_cast<std::size_t>(wish) + 1), 0.0);
    // Where the recipe's superfat is another than was assumed, the blend may stand well inside at
    // the assumed one: at least so much tighter that the search cannot come back to it.
    const explain::Measure& measure = formulation.wishes.measures[v];
    const double value = measure.at(exact);
    const bool floor = verdict.value < verdict.low;
    const double inside = floor ? value - measure.low : measure.high - value;
    held_back[static_cast<std::size_t>(wish)] +=
        std::max(1.05 * verdict.missed, inside + kJustOutside);
  }
  return any;
}

BlendResult weighed_blend(const BlendJob& job, const formulate::Assumed& assumed,
                          std::vector<int> steps) {
  BlendResult out;
  out.assumed = assumed;
  out.formulation = formulation_of(job, assumed);
  const std::vector<double> exact = out.formulation.problem.shares(steps);
  out.assumed.oil_grams = wanted_oils(job, exact);
  out.answer.steps = std::move(steps);
  weigh_blend(job, out);
  out.verdicts = judge_recipe(job, out, exact);
  return out;
}

formulate::Formulation formulation_of(const BlendJob& job, const formulate::Assumed& assumed) {
  formulate::Formulation out = formulate::formulate(job.brief, job.candidates, job.yardstick,
                                                    job.model, assumed, job.plain_bar);
  if (job.more) job.more(out, job.candidates, assumed);
  if (job.manners) job.manners(out, job.candidates, assumed);
  return out;
}

formulate::Assumed first_assumptions(const BlendJob& job) {
  formulate::Assumed out;
  out.bars = recipe::bars(job.brief.make);
  // Waxes apart, of which a pot takes little: as long as there is anything else.
  std::vector<double> equal;
  double plain = 0;
  for (const auto& candidate : job.candidates.oils) {
    equal.push_back(core::saponifies_in_part(recipe::pot_fat({candidate.oil, 1})) ? 0 : 1);
    plain += equal.back();
  }
  for (double& share : equal) {
    share = plain > 0 ? share / plain : 1.0 / static_cast<double>(equal.size());
  }
  // Any blend will do for a first size, so the floor of the worst case waits for a real one.
  BlendJob easy = without_doubt(job);
  out.oil_grams = wanted_oils(job, equal);
  easy.brief.scale = job.brief.scale;
  // A large pot: many candidates are many lines, each with the scale's error.
  const core::Recipe recipe = core::weigh(request_for(easy, equal, 100 * out.oil_grams));
  out.settings = recipe::settings_of(recipe);
  out.settings.superfat = recipe::lye_settings(job.brief.lye).superfat;
  return out;
}

namespace {

// What was asked, for explanations: at each superfat its own properties and the lye's limits.
std::vector<formulate::Formulation> slices_of(const BlendJob& job, const Weighing& weighing) {
  std::vector<formulate::Formulation> out;
  const auto& slices = weighing.slices();
  const bool one = slices.empty() || (slices.size() == 1 && slices.front().level == 0);
  if (one) return {formulation_of(job, weighing.assumed())};
  for (const formulate::LyeSlice& slice : slices) {
    formulate::Assumed at = weighing.assumed();
    at.settings = formulate::settings_box(weighing.ground(), slice, at.settings).middle();
    out.push_back(formulation_of(job, at));
    auto& limits = out.back().problem.limits;
    for (optimise::Limit& limit : formulate::lye_limits(weighing.ground(), slice))
      limits.push_back(std::move(limit));
  }
  return out;
}

// Search with every blend judged as it is weighed; the size of the batch settles as in settle().
// `result` holds the batch to begin with and may hold a blend to start from. Returns whether
// rounding to the scale broke a wish on the way.
bool weigh_each(const BlendJob& job, const optimise::SearchOptions& options, BlendResult& result) {
  std::optional<BlendResult> kept;
  for (result.passes = 1;; ++result.passes) {
    Weighing weighing(job, result.assumed);
    const formulate::Formulation asked = formulation_of(job, result.assumed);
    optimise::SearchOptions from = options;
    from.start = result.answer.steps;
    from.most_nodes *= weighing.slices().size();  // each a question of its own
    result.answer = formulate::search_goals(asked, weighed_parts(weighing), from);
    if (weighing.outside()) {
      if (result.answer.status == optimise::Status::optimal)
        result.answer.status = optimise::Status::feasible;
      if (result.answer.status == optimise::Status::infeasible)
        result.answer.status = optimise::Status::undecided;
    }
    if (!result.has_blend() && kept) {
      result = std::move(*kept);
      if (result.answer.status == optimise::Status::optimal)
        result.answer.status = optimise::Status::feasible;
      result.answer.reason = "the batch's size follows the blend, and this is the best so far";
      result.answer.cut_short = false;
      return false;
    }
    result.formulation = asked;
    if (!result.has_blend()) {
      result.slices = slices_of(job, weighing);
      result.formulation = result.slices.front();
      return weighing.rounding_broke();
    }
    const std::vector<double> exact = shares_of(asked, result.answer);
    weigh_blend(job, result);
    const double wanted = wanted_oils(job, exact);
    const bool settled = wanted == result.assumed.oil_grams;
    result.assumed.settings = result.settings;
    result.formulation = formulation_of(job, result.assumed);
    result.verdicts = judge_recipe(job, result, exact);
    if (settled || result.passes > kMostPasses / 2) return weighing.rounding_broke();
    kept = result;
    result.assumed.oil_grams = wanted;
  }
}

// The job of its oils alone: what the brief lets in of each, and nothing else.
BlendJob oils_alone(const BlendJob& job) {
  BlendJob out{job.brief, job.candidates, {}, job.model, {}, {}};
  targets::OilRules& rules = out.brief.rules;
  rules.most_oils.reset();
  rules.tags.clear();
  for (targets::OilLimit& limit : rules.oils) {
    limit.always = false;
    if (limit.least && !limit.most) limit.most = 1;
    limit.least.reset();
  }
  out.brief.wishes.clear();
  out.brief.goals.clear();
  out.brief.sureness = {};
  return out;
}

// The lye engine's refusal of the best blend of a job as posed for one superfat; none: it is safe,
// or there is no such blend.
std::optional<core::Refusal> refused_best(const BlendJob& job,
                                          const optimise::SearchOptions& options,
                                          formulate::Assumed assumed) {
  BlendResult best;
  best.assumed = std::move(assumed);
  best.assumed.held_back.clear();
  best.formulation = formulation_of(job, best.assumed);
  // What it would refuse is searched for here, not kept out.
  std::vector<int> of_the_lye;
  for (std::size_t i = 0; i < best.formulation.asked.size(); ++i)
    if (best.formulation.asked[i].of_the_lye) of_the_lye.push_back(static_cast<int>(i));
  best.formulation.problem =
      explain::without(best.formulation.problem, best.formulation.wishes, of_the_lye);
  best.answer = formulate::search_goals(best.formulation, options);
  if (!best.has_blend()) return std::nullopt;
  try {
    weigh_blend(job, best);
  } catch (const core::Refusal& refusal) {
    return refusal;
  }
  return std::nullopt;
}

// Puts in the lye engine's refusal where it stands in the way of what is wished; throws it where it
// refuses every blend of the oils.
void blame_the_lye(const BlendJob& job, const optimise::SearchOptions& options,
                   BlendResult& result) {
  result.lye_in_the_way = refused_best(job, options, result.assumed);
  const BlendJob any = oils_alone(job);
  BlendResult safe;
  safe.assumed = result.assumed;
  safe.assumed.held_back.clear();
  weigh_each(any, options, safe);
  if (safe.answer.status != optimise::Status::infeasible) return;
  if (result.lye_in_the_way) throw *result.lye_in_the_way;
  if (const auto refusal = refused_best(any, options, result.assumed)) throw *refusal;
}

}  // namespace

std::vector<formulate::Formulation> posed_at_each_superfat(const BlendJob& job,
                                                           const formulate::Assumed& assumed) {
  const Weighing weighing(job, assumed);
  if (weighing.slices().empty()) return {};
  return slices_of(job, weighing);
}

optimise::Problem held_as_weighed(const BlendJob& job, const BlendResult& result,
                                  const optimise::SearchOptions& options) {
  formulate::Assumed assumed = result.assumed;
  optimise::SearchOptions from = options;
  from.start = result.answer.steps;
  for (int round = 1;; ++round) {
    const formulate::Formulation posed = formulation_of(job, assumed);
    if (round > kMostPasses) return posed.problem;
    const optimise::Answer best = formulate::search_goals(posed, from);
    if (best.steps.empty()) return result.formulation.problem;
    if (best.steps == result.answer.steps) return posed.problem;
    try {
      const BlendResult weighed = weighed_blend(job, assumed, best.steps);
      if (!hold_back(weighed, assumed.held_back)) return posed.problem;
    } catch (const core::Refusal&) {  // no wish held tighter keeps such a blend out
      return posed.problem;
    }
  }
}

BlendResult find_blend(const BlendJob& job, const optimise::SearchOptions& options) {
  BlendResult result;
  result.assumed = first_assumptions(job);
  const bool plain = Weighing(job, result.assumed).plain();
  const bool settled = settle(job, options, result);
  bool too_coarse = false;
  if (!plain || !settled) too_coarse = weigh_each(job, options, result);
  const bool no = result.answer.status == optimise::Status::infeasible;
  if (no && too_coarse && !job.brief.rules.step_grams && !job.brief.rules.step_share) {
    // Where rounding matters, on the grams.
    BlendResult fine;
    fine.assumed = result.assumed;
    fine.assumed.step_grams = recipe::scales(job.brief.scale).oils.step;
    weigh_each(job, options, fine);
    if (fine.has_blend()) {
      formulate::keep_to_the_numbers(fine.formulation, fine.answer);
      return fine;
    }
  }
  if (no && too_coarse) {
    result.too_coarse = true;
    result.answer.status = optimise::Status::undecided;
    result.answer.reason = kTooCoarse;
  } else if (no) {
    blame_the_lye(job, options, result);
  }
  if (result.slices.empty() && !result.has_blend()) result.slices = {result.formulation};
  formulate::keep_to_the_numbers(result.formulation, result.answer);
  return result;
}

}  // namespace barwright::jobs
