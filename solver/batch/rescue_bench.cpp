#include "solver/batch/rescue_bench.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/lye/lye_portion.hpp"
#include "core/units/format.hpp"
#include "solver/recipe/recipe_request.hpp"

namespace barwright::batch {

double LyePotState::alkali_grams() const {
  double grams = 0;
  for (const auto& line : alkali) grams += line.grams;
  return grams;
}

BenchState as_planned(const BatchPlan& plan) {
  BenchState bench;
  bench.plan = &plan;
  for (const auto& part : plan.parts) {
    PartState state;
    state.plan = &part;
    state.lines = core::lines_of(part.request, part.recipe);
    state.apart = part.on_top;
    for (const auto& embed : part.part->embeds) {
      state.apart.push_back({embed.name, embed.grams, {}, nullptr, {}});
    }
    if (part.portion) {
      state.portion = part.portion->solution_grams;
    } else {
      state.lye.alkali = part.pot.alkali;
      state.lye.water = part.recipe.water_grams;
    }
    bench.parts.push_back(std::move(state));
  }
  if (plan.shared) {
    for (std::size_t i = 0; i < plan.shared->alkali.size(); ++i) {
      core::PotAlkali line = plan.parts.front().pot.alkali.at(i);
      line.grams = plan.shared->alkali[i].grams;
      line.error = plan.scales.lye.error_grams();
      bench.shared.alkali.push_back(line);
    }
    bench.shared.water = plan.shared->water_grams;
    bench.shared.weight = plan.shared->making_weight;
  }
  return bench;
}

double lye_grams(const PartState& part) {
  double grams = part.lye.sum();
  for (const auto& addition : part.lines.additions) {
    if (core::in_lye(addition.into)) grams += addition.grams;
  }
  return grams;
}

double sharing_weight(const BenchState& bench) {
  return std::min(bench.shared.weight, bench.shared.sum());
}

core::Pot pot_of(const BenchState& bench, const PartState& part) {
  core::Pot pot = core::pot_of(part.lines, part.plan->request.scales);
  if (part.lye_left_out) return pot;
  if (bench.plan->shared) {
    const double weight = sharing_weight(bench);
    if (weight > 0) {
      pot.alkali = core::portion_of(bench.shared.alkali, part.portion, weight, bench.plan->scales);
    }
  } else {
    pot.alkali = part.lye.alkali;
  }
  return pot;
}

double dissolving_strength(const BenchState& bench, const PartState& part) {
  const LyePotState& lye = bench.plan->shared ? bench.shared : part.lye;
  double pure = 0, all = lye.sum();
  for (const auto& line : lye.alkali) pure += line.grams * line.strength.stated;
  if (!bench.plan->shared) {
    // Acids and what goes into the lye bring their water along, as in core::weigh().
    for (const auto& acid : part.lines.acids) {
      if (acid.into == core::Into::lye) all += core::water_grams(acid);
    }
    for (const auto& addition : part.lines.additions) {
      if (addition.into == core::Into::lye) all += addition.grams * addition.water;
    }
  }
  return all > 0 ? pure / all : 0;
}

}  // namespace barwright::batch
