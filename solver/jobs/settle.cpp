#include "solver/jobs/settle.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include "core/units/error.hpp"
#include "solver/formulate/goal_search.hpp"
#include "solver/jobs/blend_pot.hpp"
#include "solver/jobs/weighed_parts.hpp"

namespace barwright::jobs {
namespace {

// A superfat this near to the assumed one changes no property by a tenth of a point.
constexpr double kSettledSuperfat = 2e-4;

// A problem as the one part of its question, which remembers the blends that the search came upon:
// where the last of them turns out not to weigh, one before may.
class Remembering : public optimise::Part {
 public:
  explicit Remembering(optimise::Problem problem) : problem_(std::move(problem)) {}
  const optimise::Problem& problem() const override { return problem_; }
  bool keeps(std::span<const int> steps) const override {
    if (met_.size() < kMostMet) met_.emplace_back(steps.begin(), steps.end());
    return true;
  }
  double worth(std::size_t goal, std::span<const int> steps) const override {
    return problem_.goals[goal].at(problem_.shares(steps));
  }
  bool exact(std::size_t) const override { return true; }
  optimise::Parts split() const override { return {}; }
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
  optimise::Problem problem_;
  mutable std::vector<std::vector<int>> met_;
};

// Returns the best of the blends met in all rounds that keeps every wish as it is weighed; none:
// empty.
std::vector<int> best_that_weighs(const BlendJob& job, const formulate::Assumed& assumed,
                                  const std::vector<std::shared_ptr<const Remembering>>& rounds) {
  constexpr std::size_t kMostTries = 200;  // of each round
  Weighing weighing(job, assumed);
  std::vector<int> best;
  double least = optimise::kInfinity;
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

// Whether the blend weighed comes to the batch and the superfat it was searched at.
bool as_assumed(const BlendResult& result, double wanted_oils) {
  return wanted_oils == result.assumed.oil_grams &&
         std::abs(result.settings.superfat - result.assumed.settings.superfat) <= kSettledSuperfat;
}

}  // namespace

bool settle(const BlendJob& job, const optimise::SearchOptions& options, BlendResult& result) {
  std::vector<std::shared_ptr<const Remembering>> met;
  for (result.passes = 1;; ++result.passes) {
    result.formulation = formulation_of(job, result.assumed);
    optimise::SearchOptions from = options;
    from.start = result.answer.steps;
    const optimise::Answer before = std::move(result.answer);
    met.push_back(std::make_shared<const Remembering>(result.formulation.problem));
    result.answer = formulate::search_goals(result.formulation, {met.back()}, from);
    const bool stopped = !result.has_blend();
    if (stopped) {
      // Once the time is up a round finds nothing by itself: the blend of the round before may do.
      if (result.answer.status != optimise::Status::undecided || before.steps.empty()) {
        if (!before.steps.empty()) result.answer.steps = best_that_weighs(job, result.assumed, met);
        return false;
      }
      result.answer = before;
      result.answer.status = optimise::Status::feasible;
    }
    const std::vector<double> exact = shares_of(result.formulation, result.answer);
    double wanted = result.assumed.oil_grams;
    bool safe = true;
    try {
      wanted = wanted_oils(job, exact);
      weigh_blend(job, result);
    } catch (const core::Refusal&) {  // others may be safe
      safe = false;
    }
    const bool settled = as_assumed(result, wanted);
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

}  // namespace barwright::jobs
