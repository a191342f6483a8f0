#include "solver/jobs/swap/swap_result.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/bench/mould.hpp"
#include "core/bench/temperature_solid.hpp"
#include "core/units/date.hpp"
#include "solver/formulate/blend_forms.hpp"
#include "solver/formulate/feel_goal.hpp"
#include "solver/formulate/subject.hpp"
#include "solver/jobs/swap/swap_bench.hpp"

namespace barwright::jobs {
namespace {

std::vector<SwapLine> lines_of(const SwapJob& job, const BlendResult& found) {
  std::vector<SwapLine> out;
  const auto& candidates = job.blend.candidates.oils;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    if (job.old_shares[i] == 0 && found.shares[i] == 0) continue;
    SwapLine line{candidates[i].oil.name, job.old_shares[i], found.shares[i], 0};
    const auto have = job.have.find(line.oil);
    const double there = have == job.have.end() ? 0 : have->second;
    line.to_buy_grams = std::max(0.0, line.after * found.recipe.oils_grams - there);
    out.push_back(std::move(line));
  }
  std::stable_sort(out.begin(), out.end(), [](const SwapLine& a, const SwapLine& b) {
    return a.after - a.before < b.after - b.before;
  });
  return out;
}

core::IngredientList list_of(const SwapJob& job, const core::Recipe& recipe) {
  core::LabelPart part;
  for (const auto& line : recipe.oils) {
    for (const auto& candidate : job.blend.candidates.oils) {
      if (candidate.oil.name != line.name) continue;
      core::PotFat fat;
      fat.name = line.name;
      fat.grams = line.grams;
      fat.saponification_value = line.saponification_value;
      part.fats.push_back({fat, candidate.oil.inci, candidate.oil.saponified_name,
                           candidate.oil.saponified_name_by_analogy});
    }
  }
  part.alkali = recipe.alkali;
  part.superfat = recipe.superfat;
  part.water_grams = recipe.water_grams;
  part.poured_grams = recipe.total_grams;
  core::LabelRequest request;
  request.parts.push_back(std::move(part));
  for (const auto* lines : {&recipe.liquids, &recipe.additives}) {
    for (const auto& line : *lines) {
      core::LabelAddition addition;
      addition.name = line.name;
      addition.grams = line.grams;
      request.additions.push_back(std::move(addition));
    }
  }
  return core::as_added(request);
}

SwapOutside outside_of(const SwapJob& job, const BlendResult& found) {
  SwapOutside out;
  const auto before = list_of(job, job.old_recipe);
  const auto after = list_of(job, found.recipe);
  out.list_before = before.line();
  out.list_after = after.line();
  const auto missing = [](const core::IngredientList& from, const core::IngredientList& in) {
    std::vector<std::string> names;
    for (const auto& item : from.items) {
      const bool there = std::any_of(in.items.begin(), in.items.end(),
                                     [&](const auto& other) { return other.name == item.name; });
      if (!there) names.push_back(item.name);
    }
    return names;
  };
  out.new_names = missing(after, before);
  out.gone_names = missing(before, after);
  std::set<std::string> old_tags, new_tags;
  const auto& candidates = job.blend.candidates.oils;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const auto& tags = candidates[i].oil.tags;
    if (job.old_shares[i] > 0) old_tags.insert(tags.begin(), tags.end());
    if (found.shares[i] > 0) new_tags.insert(tags.begin(), tags.end());
  }
  std::set_difference(new_tags.begin(), new_tags.end(), old_tags.begin(), old_tags.end(),
                      std::back_inserter(out.new_tags));
  for (const auto& claim : job.brief.claims) out.kept_claims.push_back(claim.written.text);
  return out;
}

std::optional<Saving> saving_of(const SwapJob& job, const BlendResult& found) {
  const auto& old = *job.blend.yardstick;
  if (!old.priced) return std::nullopt;
  double new_per_kg = 0;
  for (const std::size_t i : found.used) {
    const auto& price = job.blend.candidates.oils[i].price_per_kg;
    if (!price) return std::nullopt;
    new_per_kg += found.shares[i] * *price;
  }
  Saving out;
  const double old_batch = old.price_per_kg * job.old_recipe.oils_grams / 1000;
  const double new_batch = new_per_kg * found.recipe.oils_grams / 1000;
  out.old_per_bar = old_batch / job.bars;
  out.new_per_bar = new_batch / job.bars;
  out.per_bar = out.old_per_bar - out.new_per_bar;
  out.per_batch = old_batch - new_batch;
  return out;
}

std::optional<FirstOrder> first_order(const SwapJob& job, const SwapResult& result) {
  if (!result.saving) return std::nullopt;
  FirstOrder out;
  for (const auto& line : result.lines) {
    if (line.to_buy_grams < 0.5) continue;
    const auto* pack = job.prices.cheapest(line.oil);
    if (pack == nullptr) return std::nullopt;
    FirstOrder::Item item{line.oil,
                          static_cast<int>(std::ceil(line.to_buy_grams / pack->grams)),
                          pack->grams,
                          pack->size,
                          0,
                          0,
                          0};
    item.money = item.count * pack->price;
    item.left_grams = item.count * pack->grams - line.to_buy_grams;
    item.left_worth = item.left_grams / 1000 * pack->per_kg();
    out.left_worth += item.left_worth;
    out.items.push_back(std::move(item));
  }
  if (out.items.empty()) return std::nullopt;
  out.delivery = job.delivery;
  out.saved_per_bar = (result.saving->per_batch - out.delivery - out.left_worth) / job.bars;
  return out;
}

double clear_at(const explain::Measure& measure, std::span<const double> shares) {
  return measure.at(shares);
}

std::vector<BenchLine> bench_of(const SwapJob& job, const BlendResult& found) {
  const auto& model = job.blend.model;
  const auto& old = *job.blend.yardstick;
  std::vector<BenchLine> out;
  const explain::Measure clear = clear_point(job.blend.candidates.oils);
  out.push_back({"fats clear above", "C", clear_at(clear, job.old_shares),
                 clear_at(clear, found.shares), "warm the oils past it before the lye"});
  const auto points = [&](targets::Property property, std::string what, std::string says) {
    out.push_back({std::move(what), "points", model.value(property, old.composition, old.settings),
                   model.value(property, found.composition, found.settings), std::move(says)});
  };
  points(targets::Property::working_time, "time to pour", "more: it thickens later");
  points(targets::Property::cut_firmness, "firm at cutting", "more: it unmoulds sooner");
  points(targets::Property::keeping, "keeps", "more: slower to turn rancid");
  out.push_back({"left unsaponified by nature", "%", 100 * old.composition.unsaponifiable,
                 100 * found.composition.unsaponifiable, ""});
  return out;
}

SideBySide side_by_side(const SwapJob& job, const BlendResult& found) {
  SideBySide out;
  try {
    const double grams = job.brief.test_first->oils_grams;
    out.before = core::weigh(swap_request(job, job.old_shares, grams));
    std::vector<double> exact(found.answer.steps.size());
    for (std::size_t i = 0; i < exact.size(); ++i) {
      exact[i] = static_cast<double>(found.answer.steps[i]) / found.formulation.problem.steps;
    }
    out.after = core::weigh(swap_request(job, exact, grams));
  } catch (const core::Refusal& refusal) {
    out.refusal = refusal.reason() + " " + refusal.remedy();
  }
  return out;
}

}  // namespace

FeelPrices price_of_feel(const SwapJob& job, const formulate::Assumed& assumed, int points,
                         const optimise::SearchOptions& options) {
  FeelPrices out;
  const auto& candidates = job.blend.candidates.oils;
  std::vector<double> prices;
  for (const auto& candidate : candidates) {
    if (!candidate.price_per_kg) {
      out.why_not = "Not reckoned: " + candidate.oil.name + " has no price.";
      return out;
    }
    prices.push_back(*candidate.price_per_kg);
  }
  if (!job.blend.yardstick->priced) {
    out.why_not = "Not reckoned: an oil of the old recipe has no price.";
    return out;
  }
  const formulate::Formulation formulation = formulation_of(nearest_anyway(job), assumed);
  optimise::Problem problem = formulation.problem;
  problem.goals = {formulate::feel_goal(
      formulate::feel_over_oils(job.blend.model, assumed.settings, candidates),
      formulate::feel_points(job.blend.model, *job.blend.yardstick), job.emphasis)};
  const optimise::Form cost = optimise::weighted_sum(prices);
  const explain::Curve curve = explain::trade_off(problem, cost, points, options);
  out.proved = curve.proved;
  const double kg_per_bar = assumed.oil_grams / 1000 / job.bars;
  for (const auto& point : curve.points) {
    if (!point.new_blend) continue;
    FeelPrice price;
    price.steps = point.answer.steps;
    price.proved = point.answer.status == optimise::Status::optimal;
    price.saved_per_bar = (job.blend.yardstick->price_per_kg - point.second) * kg_per_bar;
    const auto shares = problem.shares(price.steps);
    price.gap =
        targets::feel_gap(job.blend.model, formulate::mixed(candidates, shares), assumed.settings,
                          job.blend.yardstick->composition, job.blend.yardstick->settings);
    out.points.push_back(std::move(price));
  }
  if (out.points.empty()) out.why_not = "No blend keeps the bench and the claims.";
  return out;
}

SwapResult swap_result(const SwapJob& job, const BlendResult& found,
                       const optimise::SearchOptions& options) {
  SwapResult out;
  out.lines = lines_of(job, found);
  out.outside = outside_of(job, found);
  out.gap = targets::feel_gap(job.blend.model, found.composition, found.settings,
                              job.blend.yardstick->composition, job.blend.yardstick->settings);
  out.saving = saving_of(job, found);
  out.first_order = first_order(job, out);
  out.bench = bench_of(job, found);
  if (job.brief.price_of_feel_steps) {
    out.prices = price_of_feel(job, found.assumed, *job.brief.price_of_feel_steps, options);
  }
  if (job.brief.test_first) out.side_by_side = side_by_side(job, found);
  return out;
}

}  // namespace barwright::jobs
