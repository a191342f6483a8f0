#include "solver/jobs/blend_pot.hpp"

#include <algorithm>
#include <cmath>

#include "core/lye/pot_of.hpp"
#include "core/units/error.hpp"
#include "solver/formulate/subject.hpp"
#include "solver/formulate/verdict.hpp"
#include "solver/recipe/bar_settings.hpp"
#include "solver/recipe/recipe_request.hpp"
#include "solver/recipe/sizing.hpp"

namespace barwright::jobs {
namespace {

constexpr double kFine = 0.001;  // g: a scale whose error bears on nothing

double oils_of(const core::RecipeRequest& request) {
  double grams = 0;
  for (const auto& oil : request.oils) grams += oil.grams;
  return grams;
}

// A dose on the water follows the blend's own alkali.
bool doses_follow_water(const targets::LyeWish& lye) {
  for (const auto* list : {&lye.acids, &lye.liquids, &lye.into_lye}) {
    for (const auto& addition : *list) {
      if (addition.dose.basis == targets::Basis::of_water) return true;
    }
  }
  return false;
}

// The blend without what saponifies in part, where there is anything else.
std::vector<double> without_waxes(const BlendJob& job, std::span<const double> shares) {
  std::vector<double> out(shares.begin(), shares.end());
  double rest = 0;
  for (std::size_t i = 0; i < out.size(); ++i) {
    if (core::saponifies_in_part(recipe::pot_fat({job.candidates.oils[i].oil, 1}))) out[i] = 0;
    rest += out[i];
  }
  if (!(rest > 0)) return {shares.begin(), shares.end()};
  for (double& share : out) share /= rest;
  return out;
}

}  // namespace

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
  std::vector<recipe::PotOil> oils;
  for (const std::size_t i : used_oils(shares)) {
    const auto& candidate = job.candidates.oils[i];
    oils.push_back({candidate.for_lye(shares[i] * oil_grams), shares[i] * oil_grams});
  }
  return recipe::recipe_request(oils, job.brief.lye, job.brief.scale, recipe::bars(job.brief.make));
}

double wanted_oils(const BlendJob& job, std::span<const double> shares) {
  const auto grams_of = [](const BlendJob& of, std::span<const double> parts) {
    return oils_of(recipe::sized(
        [&](double oil_grams) { return request_for(of, parts, oil_grams); }, of.brief.make));
  };
  double grams = 0;
  try {
    grams = grams_of(job, shares);
  } catch (const core::Refusal&) {  // whether it is safe is asked once it is weighed at its size
    BlendJob easy = without_doubt(job);
    easy.brief.scale.lye_grams = kFine;
    grams = grams_of(easy, without_waxes(job, shares));
  }
  const double step =
      job.brief.rules.step_grams.value_or(recipe::scales(job.brief.scale).oils.step);
  return std::max(step, std::round(grams / step) * step);
}

BlendJob without_doubt(const BlendJob& job) {
  BlendJob easy{job.brief, job.candidates, {}, job.model, {}, {}};
  for (auto& candidate : easy.candidates.oils) {
    auto& span = candidate.oil.saponification_value.span;
    span.low = span.high = span.typical;
    candidate.oil.saponification_value.mark = core::Mark::certificate;
    candidate.holding.reset();
  }
  easy.brief.lye.never_below = 0;
  easy.brief.lye.raise = true;
  easy.brief.scale.oils_grams = kFine;  // each line has its error: of many oils it takes the most
  return easy;
}

formulate::LyeGround lye_ground_of(const BlendJob& job, const optimise::Problem& problem,
                                   double oil_grams) {
  // The oil that takes the most lye: the scale suits it before any other.
  std::size_t best = 0;
  double most = -1;
  for (std::size_t i = 0; i < job.candidates.oils.size(); ++i) {
    const core::PotFat fat = recipe::pot_fat({job.candidates.oils[i].oil, 1});
    const double value = core::saponifies_in_part(fat) ? 0 : fat.saponification_value.typical;
    if (value > most) {
      most = value;
      best = i;
    }
  }
  BlendJob alone{job.brief, {}, {}, job.model, {}, {}};
  alone.candidates.oils.push_back(job.candidates.oils[best]);
  alone = without_doubt(alone);
  const std::vector<double> whole = {1.0};
  const core::RecipeRequest request = request_for(alone, whole, oil_grams);
  const core::Recipe recipe = core::weigh(request);
  core::Pot beside = core::pot_of(request, recipe);
  beside.fats.erase(beside.fats.begin());
  formulate::LyeGround ground = formulate::lye_ground(
      job.candidates, problem, oil_grams, beside, recipe.total_water_grams - recipe.water_grams,
      recipe::lye_settings(job.brief.lye), recipe::scales(job.brief.scale));
  ground.fixed = !doses_follow_water(job.brief.lye);
  return ground;
}

void weigh_blend(const BlendJob& job, BlendResult& result) {
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
  result.composition = formulate::mixed(job.candidates.oils, result.shares);
  result.settings = recipe::settings_of(result.recipe);
}

// Judged at the recipe's own settings and size, not at those the search assumed.
std::vector<formulate::Verdict> judge_recipe(const BlendJob& job, const BlendResult& result,
                                             std::span<const double> in_steps) {
  formulate::Assumed real = result.assumed;
  real.settings = result.settings;
  real.oil_grams = result.recipe.oils_grams;
  real.held_back.clear();
  return formulate::judge(formulation_of(job, real), result.shares, in_steps);
}

bool over_stock(const BlendJob& job, const BlendResult& result) {
  for (const std::size_t i : result.used) {
    const auto& stock = job.candidates.oils[i].stock_grams;
    if (stock && result.shares[i] * result.recipe.oils_grams > *stock + 1e-6) return true;
  }
  return false;
}

std::vector<double> shares_of(const formulate::Formulation& formulation,
                              const optimise::Answer& answer) {
  return formulation.problem.shares(answer.steps);
}

bool any_missed(const std::vector<formulate::Verdict>& verdicts) {
  return std::any_of(verdicts.begin(), verdicts.end(),
                     [](const formulate::Verdict& verdict) { return verdict.missed != 0; });
}

}  // namespace barwright::jobs
