#include "solver/jobs/blend_job.hpp"

#include <algorithm>
#include <cmath>

#include "core/units/error.hpp"
#include "solver/formulate/claim.hpp"
#include "solver/formulate/goal_search.hpp"
#include "solver/formulate/subject.hpp"
#include "solver/jobs/blend_pot.hpp"
#include "solver/jobs/sureness.hpp"
#include "solver/jobs/weighed_parts.hpp"
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
  if (job.manners) job.manners(out, job.candidates, assumed);
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
  const BlendJob easy = without_doubt(job);
  out.oil_grams = wanted_oils(easy, equal);
  // A large pot: many candidates are many lines, each with the scale's error.
  const core::Recipe recipe = core::weigh(request_for(easy, equal, 100 * out.oil_grams));
  out.settings = settings_of(recipe);
  out.settings.superfat = lye_settings(job.brief.lye).superfat;
  return out;
}

namespace {

const char* const kTooCoarse =
    "The scale's steps are too coarse to keep every wish exactly: weigh finer, make a larger "
    "batch, or loosen the tightest wish a little.";

std::vector<double> shares_of(const Formulation& formulation, const Answer& answer) {
  return formulation.problem.shares(answer.steps);
}

bool any_missed(const std::vector<Verdict>& verdicts) {
  return std::any_of(verdicts.begin(), verdicts.end(),
                     [](const Verdict& verdict) { return verdict.missed != 0; });
}

// A problem as the one part of its question, which remembers the blends that the search came upon:
// where the last of them turns out not to weigh, one before may.
class Remembering : public Part {
 public:
  explicit Remembering(Problem problem) : problem_(std::move(problem)) {}
  const Problem& problem() const override { return problem_; }
  bool keeps(std::span<const int> steps) const override {
    if (met_.size() < kMostMet) met_.emplace_back(steps.begin(), steps.end());
    return true;
  }
  double worth(std::size_t goal, std::span<const int> steps) const override {
    return problem_.goals[goal].at(problem_.shares(steps));
  }
  bool exact(std::size_t) const override { return true; }
  Parts split() const override { return {}; }
  std::uint64_t work() const override { return 0; }
  /// Returns the blends met, the best at the first goal first.
  std::vector<std::vector<int>> best_first() const {
    std::vector<std::vector<int>> out = met_;
    if (problem_.goals.empty()) return out;
    std::stable_sort(out.begin(), out.end(),
                     [&](const auto& a, const auto& b) { return worth(0, a) < worth(0, b); });
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
  }

 private:
  static constexpr std::size_t kMostMet = 2000;
  Problem problem_;
  mutable std::vector<std::vector<int>> met_;
};

// Returns the best of the blends met in all rounds that keeps every wish as it is weighed; none:
// empty.
std::vector<int> best_that_weighs(const BlendJob& job, const Assumed& assumed,
                                  const std::vector<std::shared_ptr<const Remembering>>& rounds) {
  constexpr std::size_t kMostTries = 200;  // of each round
  Weighing weighing(job, assumed);
  std::vector<int> best;
  double least = kInfinity;
  for (const auto& met : rounds) {
    std::size_t tries = 0;
    for (const auto& steps : met->best_first()) {
      if (++tries > kMostTries) break;
      const Weighing::Weighed& weighed = weighing.at(steps);
      if (weighed.refused || !weighed.in_stock || !weighing.judged_at(steps).keeps_wishes) continue;
      const double worth = weighed.worths.empty() ? 0 : weighed.worths.front();
      if (worth < least) {
        least = worth;
        best = steps;
      }
      break;
    }
  }
  return best;
}

// Search at the settings of the blend found last until they agree. Returns whether the blend was
// weighed and keeps every wish; if not, `result` holds one met on the way that does, if any did.
bool settle(const BlendJob& job, const SearchOptions& options, BlendResult& result) {
  std::vector<std::shared_ptr<const Remembering>> met;
  for (result.passes = 1;; ++result.passes) {
    result.formulation = formulation_of(job, result.assumed);
    SearchOptions from = options;
    from.start = result.answer.steps;
    const Answer before = std::move(result.answer);
    met.push_back(std::make_shared<const Remembering>(result.formulation.problem));
    result.answer = search_goals(result.formulation, {met.back()}, from);
    const bool stopped = !result.has_blend();
    if (stopped) {
      // Once the time is up a round finds nothing by itself: the blend of the round before may do.
      if (result.answer.status != Status::undecided || before.steps.empty()) {
        if (!before.steps.empty()) result.answer.steps = best_that_weighs(job, result.assumed, met);
        return false;
      }
      result.answer = before;
      result.answer.status = Status::feasible;
    }
    const std::vector<double> exact = shares_of(result.formulation, result.answer);
    const double wanted = wanted_oils(job, exact);
    bool safe = true;
    try {
      weigh(job, result);
    } catch (const core::Refusal&) {  // others may be safe
      safe = false;
    }
    const bool settled =
        wanted == result.assumed.oil_grams &&
        std::abs(result.settings.superfat - result.assumed.settings.superfat) <= kSettledSuperfat;
    if (safe && !settled && !stopped && result.passes <= kMostPasses / 2) {
      result.assumed.oil_grams = wanted;
      result.assumed.settings = result.settings;
      continue;
    }
    if (safe) {
      result.verdicts = judge_recipe(job, result, exact);
      if (!any_missed(result.verdicts) && !over_stock(job, result)) return true;
    }
    result.answer.steps = best_that_weighs(job, result.assumed, met);
    return false;
  }
}

// The same where lots or doubt count, whose problems take too long to be posed blend by blend: a
// wish that the weighed grams miss is held tighter and searched again. Returns whether the lye
// engine took the blends met.
bool settle_sure(const BlendJob& job, const SearchOptions& options, BlendResult& result) {
  std::optional<Answer> unheld;     // the last answer to the wishes as they stand
  std::optional<BlendResult> kept;  // the last that was weighed and keeps every wish
  for (result.passes = 1;; ++result.passes) {
    result.formulation = formulation_of(job, result.assumed);
    SearchOptions from = options;
    from.start = result.answer.steps;
    result.answer = search_goals(result.formulation, from);
    if (!result.has_blend()) break;
    const std::vector<double> exact = shares_of(result.formulation, result.answer);
    const double wanted = wanted_oils(job, exact);
    try {
      weigh(job, result);
    } catch (const core::Refusal&) {
      return false;
    }
    result.verdicts = judge_recipe(job, result, exact);
    const bool missed = any_missed(result.verdicts), short_of_oil = over_stock(job, result);
    if (!missed && !short_of_oil) kept = result;
    const bool settled =
        wanted == result.assumed.oil_grams &&
        std::abs(result.settings.superfat - result.assumed.settings.superfat) <= kSettledSuperfat;
    if (!settled && result.passes <= kMostPasses / 2) {
      result.assumed.oil_grams = wanted;
      result.assumed.settings = result.settings;
      continue;
    }
    if (result.assumed.held_back.empty()) unheld = result.answer;
    if (!missed && !short_of_oil) break;
    hold_back(result, result.assumed.held_back);
    if (result.passes == kMostPasses) {
      // Nothing that the checker does not accept is an answer.
      result.answer.steps.clear();
      result.too_coarse = true;
      result.answer.status = Status::undecided;
      result.answer.reason = kTooCoarse;
      break;
    }
    if (short_of_oil) result.assumed.oil_grams -= core::Scales(scales(job.brief.scale)).oils.step;
  }
  if (!result.has_blend() && kept) {
    result = std::move(*kept);
    if (result.answer.status == Status::optimal) result.answer.status = Status::feasible;
    result.answer.reason = "a better blend was not excluded";
    return true;
  }
  if (result.assumed.held_back.empty() || !unheld) return true;
  if (!result.has_blend()) {
    if (result.answer.status == Status::infeasible) result.answer.status = Status::undecided;
  } else if (!result.answer.goals.empty() && result.answer.status == Status::optimal) {
    // What was proved is the best of the wishes as written; the recipe may lie a hair off it.
    auto& first = result.answer.goals.front();
    first.bound = std::min(first.bound, unheld->goals.front().bound);
    keep_to_the_numbers(result.formulation, result.answer);
    if (result.answer.status != Status::optimal) {
      result.answer.reason =
          "rounded to the scale's steps, the best blend missed a wish by a hair; this one keeps it";
    }
  }
  return true;
}

// What was asked, for explanations: at each superfat its own properties and the lye's limits.
std::vector<Formulation> slices_of(const BlendJob& job, const Weighing& weighing) {
  std::vector<Formulation> out;
  const auto& slices = weighing.slices();
  const bool one = slices.empty() || (slices.size() == 1 && slices.front().level == 0);
  if (one) return {formulation_of(job, weighing.assumed())};
  for (const LyeSlice& slice : slices) {
    Assumed at = weighing.assumed();
    at.settings = settings_box(weighing.ground(), slice, at.settings).middle();
    out.push_back(formulation_of(job, at));
    auto& limits = out.back().problem.limits;
    for (Limit& limit : lye_limits(weighing.ground(), slice)) limits.push_back(std::move(limit));
  }
  return out;
}

// Search with every blend judged as it is weighed; the size of the batch settles as in settle().
// `result` holds the batch to begin with and may hold a blend to start from. Returns whether
// rounding to the scale broke a wish on the way.
bool weigh_each(const BlendJob& job, const SearchOptions& options, BlendResult& result) {
  std::optional<BlendResult> kept;
  for (result.passes = 1;; ++result.passes) {
    Weighing weighing(job, result.assumed);
    const Formulation asked = formulation_of(job, result.assumed);
    SearchOptions from = options;
    from.start = result.answer.steps;
    result.answer = search_goals(asked, weighed_parts(weighing), from);
    if (weighing.outside()) {
      if (result.answer.status == Status::optimal) result.answer.status = Status::feasible;
      if (result.answer.status == Status::infeasible) result.answer.status = Status::undecided;
    }
    if (!result.has_blend() && kept) {
      result = std::move(*kept);
      if (result.answer.status == Status::optimal) result.answer.status = Status::feasible;
      result.answer.reason = "the batch's size follows the blend, and this is the best so far";
      return false;
    }
    result.formulation = asked;
    if (!result.has_blend()) {
      result.slices = slices_of(job, weighing);
      result.formulation = result.slices.front();
      return weighing.rounding_broke();
    }
    const std::vector<double> exact = shares_of(asked, result.answer);
    weigh(job, result);
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

// Throws the lye engine's refusal where it alone stands in the way of what is wished.
void blame_the_lye(const BlendJob& job, const SearchOptions& options, const BlendResult& result) {
  BlendResult plain;
  plain.assumed = result.assumed;
  plain.formulation = formulation_of(job, plain.assumed);
  plain.answer = search_goals(plain.formulation, options);
  if (plain.has_blend()) weigh(job, plain);
}

}  // namespace

BlendResult find_blend(const BlendJob& job, const SearchOptions& options) {
  BlendResult result;
  result.assumed = first_assumptions(job);
  const bool sure = asks_for_sureness(job.brief);
  const bool plain = sure || Weighing(job, result.assumed).plain();
  const bool settled = sure ? settle_sure(job, options, result) : settle(job, options, result);
  bool too_coarse = false;
  if (!plain || !settled) too_coarse = weigh_each(job, options, result);
  const bool no = result.answer.status == Status::infeasible && !(sure && settled);
  if (no && too_coarse && !job.brief.rules.step_grams && !job.brief.rules.step_share) {
    // Where rounding matters, on the grams.
    BlendResult fine;
    fine.assumed = result.assumed;
    fine.assumed.step_grams = scales(job.brief.scale).oils.step;
    weigh_each(job, options, fine);
    if (fine.has_blend()) {
      keep_to_the_numbers(fine.formulation, fine.answer);
      return fine;
    }
  }
  if (no && too_coarse) {
    result.too_coarse = true;
    result.answer.status = Status::undecided;
    result.answer.reason = kTooCoarse;
  } else if (no) {
    blame_the_lye(job, options, result);
  }
  if (result.slices.empty() && !result.has_blend()) result.slices = {result.formulation};
  keep_to_the_numbers(result.formulation, result.answer);
  return result;
}

}  // namespace barwright::solver
