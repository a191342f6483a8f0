#include "solver/jobs/blend_job.hpp"

#include <algorithm>
#include <cmath>

#include "solver/formulate/claim.hpp"
#include "solver/formulate/goal_search.hpp"
#include "solver/formulate/subject.hpp"
#include "solver/recipe/recipe_request.hpp"
#include "solver/recipe/sizing.hpp"

namespace barwright::solver {
namespace {

// Search and weighing settle in two or three passes; more means a cycle between two sizes.
constexpr int kMostPasses = 8;
// A superfat this near to the assumed one changes no property by a tenth of a point.
constexpr double kSettledSuperfat = 2e-4;
// In a wish's own unit, beyond every tolerance of the search and below every digit shown.
constexpr double kJustOutside = 1e-5;

// The oils of a blend, largest share first: the order in which they are weighed.
std::vector<std::size_t> used_oils(std::span<const double> shares) {
  std::vector<std::size_t> used;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    if (shares[i] > 0) used.push_back(i);
  }
  std::stable_sort(used.begin(), used.end(),
                   [&](std::size_t a, std::size_t b) { return shares[a] > shares[b]; });
  return used;
}

core::RecipeRequest request_for(const BlendJob& job, std::span<const double> shares,
                                double oil_grams) {
  std::vector<PotOil> oils;
  for (const std::size_t i : used_oils(shares)) {
    const auto& candidate = job.candidates.oils[i];
    oils.push_back({candidate.for_lye(shares[i] * oil_grams), shares[i] * oil_grams});
  }
  return recipe_request(oils, job.brief.lye, job.brief.scale, bars(job.brief.make));
}

double oils_of(const core::RecipeRequest& request) {
  double grams = 0;
  for (const auto& oil : request.oils) grams += oil.grams;
  return grams;
}

// The oils a maker's size needs with this blend, in whole steps of the oils scale (and of the
// blend, where its steps are grams).
double wanted_oils(const BlendJob& job, std::span<const double> shares) {
  const core::RecipeRequest request =
      sized([&](double oil_grams) { return request_for(job, shares, oil_grams); }, job.brief.make);
  const double step = job.brief.rules.step_grams.value_or(request.scales.oils.step);
  return std::max(step, std::round(oils_of(request) / step) * step);
}

double dry_lactate_per_oil(const core::Recipe& recipe) {
  double grams = 0;
  for (const auto& line : recipe.additives) {
    if (line.name.find("sodium lactate") != std::string::npos) grams += line.grams;
  }
  return recipe.oils_grams > 0 ? grams / recipe.oils_grams : 0;
}

void weigh(const BlendJob& job, BlendResult& result) {
  const auto& steps = result.answer.steps;
  std::vector<double> shares(steps.size());
  for (std::size_t i = 0; i < steps.size(); ++i) {
    shares[i] = static_cast<double>(steps[i]) / result.formulation.problem.steps;
  }
  result.recipe = core::weigh(request_for(job, shares, result.assumed.oil_grams));
  result.used = used_oils(shares);
  result.shares.assign(steps.size(), 0.0);
  for (std::size_t line = 0; line < result.used.size(); ++line) {
    result.shares[result.used[line]] = result.recipe.oils.at(line).grams / result.recipe.oils_grams;
  }
  result.composition = mixed(job.candidates.oils, result.shares);
  result.settings = settings_of(result.recipe);
}

// Judged at the recipe's own settings and size, not at those the search assumed.
std::vector<Verdict> judge_recipe(const BlendJob& job, const BlendResult& result,
                                  std::span<const double> in_steps) {
  Assumed real = result.assumed;
  real.settings = result.settings;
  real.oil_grams = result.recipe.oils_grams;
  real.held_back.clear();
  return judge(formulation_of(job, real), result.shares, in_steps);
}

bool over_stock(const BlendJob& job, const BlendResult& result) {
  for (const std::size_t i : result.used) {
    const auto& stock = job.candidates.oils[i].stock_grams;
    if (stock && result.shares[i] * result.recipe.oils_grams > *stock + 1e-6) return true;
  }
  return false;
}

}  // namespace

bool hold_back(const BlendResult& result, std::vector<double>& held_back) {
  const Formulation& formulation = result.formulation;
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
    const Measure& measure = formulation.wishes.measures[v];
    const double value = measure.at(exact);
    const bool floor = verdict.value < verdict.low;
    const double inside = floor ? value - measure.low : measure.high - value;
    held_back[static_cast<std::size_t>(wish)] +=
        std::max(1.05 * verdict.missed, inside + kJustOutside);
  }
  return any;
}

BlendResult weighed_blend(const BlendJob& job, const Assumed& assumed, std::vector<int> steps) {
  BlendResult out;
  out.assumed = assumed;
  out.formulation = formulation_of(job, assumed);
  const std::vector<double> exact = out.formulation.problem.shares(steps);
  out.assumed.oil_grams = wanted_oils(job, exact);
  out.answer.steps = std::move(steps);
  weigh(job, out);
  out.verdicts = judge_recipe(job, out, exact);
  return out;
}

Formulation formulation_of(const BlendJob& job, const Assumed& assumed) {
  Formulation out =
      formulate(job.brief, job.candidates, job.yardstick, job.model, assumed, job.plain_bar);
  if (job.more) job.more(out, job.candidates, assumed);
  return out;
}

targets::BarSettings settings_of(const core::Recipe& recipe) {
  targets::BarSettings out;
  out.superfat = recipe.superfat;
  out.koh_share = recipe.koh.moles;
  out.lye_concentration = recipe.lye_concentration;
  out.sodium_lactate = dry_lactate_per_oil(recipe);
  return out;
}

Assumed first_assumptions(const BlendJob& job) {
  Assumed out;
  out.bars = bars(job.brief.make);
  // Waxes apart, of which a pot takes little: as long as there is anything else.
  std::vector<double> equal;
  double plain = 0;
  for (const auto& candidate : job.candidates.oils) {
    equal.push_back(core::saponifies_in_part(pot_fat({candidate.oil, 1})) ? 0 : 1);
    plain += equal.back();
  }
  for (double& share : equal) {
    share = plain > 0 ? share / plain : 1.0 / static_cast<double>(equal.size());
  }
  // Any blend will do for a first size, so the floor of the worst case waits for a real one.
  BlendJob easy{job.brief, job.candidates, {}, job.model, {}, {}};
  for (auto& candidate : easy.candidates.oils) {
    auto& span = candidate.oil.saponification_value.span;
    span.low = span.high = span.typical;
    candidate.oil.saponification_value.mark = core::Mark::certificate;
    candidate.holding.reset();
  }
  easy.brief.lye.never_below = 0;
  out.oil_grams = wanted_oils(easy, equal);
  // A large pot: many candidates are many lines, each with the scale's error.
  const core::Recipe recipe = core::weigh(request_for(easy, equal, 100 * out.oil_grams));
  out.settings = settings_of(recipe);
  out.settings.superfat = lye_settings(job.brief.lye).superfat;
  return out;
}

BlendResult find_blend(const BlendJob& job, const SearchOptions& options) {
  BlendResult result;
  result.assumed = first_assumptions(job);
  std::optional<Answer> unheld;  // the last answer to the wishes as they stand
  for (result.passes = 1;; ++result.passes) {
    result.formulation = formulation_of(job, result.assumed);
    // Once the time is up a round finds nothing by itself: the blend of the round before is then
    // the best so far, where it still fits.
    const std::vector<int> before = std::move(result.answer.steps);
    result.answer = search_goals(result.formulation, options);
    if (result.answer.status == Status::undecided && !before.empty()) {
      SearchOptions keep = options;
      keep.start = before;
      result.answer = search_goals(result.formulation, keep);
    }
    if (!result.has_blend()) break;
    const bool last = result.passes == kMostPasses;
    std::vector<double> exact(result.answer.steps.size());
    for (std::size_t i = 0; i < exact.size(); ++i) {
      exact[i] = static_cast<double>(result.answer.steps[i]) / result.formulation.problem.steps;
    }
    const double wanted = wanted_oils(job, exact);
    weigh(job, result);
    const bool settled =
        wanted == result.assumed.oil_grams &&
        std::abs(result.settings.superfat - result.assumed.settings.superfat) <= kSettledSuperfat;
    if (!settled && result.passes <= kMostPasses / 2) {
      result.assumed.oil_grams = wanted;
      result.assumed.settings = result.settings;
      continue;
    }
    if (result.assumed.held_back.empty()) unheld = result.answer;
    result.verdicts = judge_recipe(job, result, exact);
    const bool short_of_oil = over_stock(job, result);
    if (!hold_back(result, result.assumed.held_back) && !short_of_oil) {
      break;
    }
    if (last) {
      // Nothing that the checker does not accept is an answer.
      result.too_coarse = true;
      result.answer.steps.clear();
      result.answer.status = Status::undecided;
      result.answer.reason =
          "The scale's steps are too coarse to keep every wish exactly: weigh finer, make a larger "
          "batch, or loosen the tightest wish a little.";
      break;
    }
    if (short_of_oil) result.assumed.oil_grams -= core::Scales(scales(job.brief.scale)).oils.step;
  }
  if (!result.assumed.held_back.empty() && unheld) {
    if (!result.has_blend()) {
      if (result.answer.status == Status::infeasible) result.answer.status = Status::undecided;
    } else if (!result.answer.goals.empty() && result.answer.status == Status::optimal) {
      // What was proved is the best of the wishes as written; the recipe may lie a hair off it.
      auto& first = result.answer.goals.front();
      first.bound = std::min(first.bound, unheld->goals.front().bound);
      keep_to_the_numbers(result.formulation, result.answer);
      if (result.answer.status != Status::optimal) {
        result.answer.reason =
            "rounded to the scale's steps, the best blend missed a wish by a hair; this one keeps "
            "it";
      }
    }
  }
  keep_to_the_numbers(result.formulation, result.answer);
  return result;
}

}  // namespace barwright::solver
