#include "solver/formulate/goal_search.hpp"

#include <algorithm>
#include <cmath>

#include "solver/formulate/goal_watch.hpp"

namespace barwright::formulate {
namespace {

using Count = std::ptrdiff_t;

int used(const std::vector<int>& steps) {
  return static_cast<int>(std::count_if(steps.begin(), steps.end(), [](int w) { return w > 0; }));
}

// Whether `answer` is as good as `best` in each goal, what the goal gives way by allowed for.
bool as_good(const optimise::Answer& answer, const optimise::Answer& best,
             const std::vector<optimise::Goal>& goals) {
  for (std::size_t g = 0; g < goals.size(); ++g) {
    // From the bound: the value may have given way to a later goal already.
    const double bound = best.goals[g].bound;
    const double slack = optimise::kGap * std::max(1.0, std::abs(bound));
    if (answer.goals[g].value > goals[g].moved(bound, goals[g].give) + slack) return false;
  }
  return true;
}

}  // namespace

optimise::Answer search_goals(const Formulation& formulation,
                              const optimise::SearchOptions& options) {
  return search_goals(formulation, {optimise::whole(formulation.problem)}, options);
}

namespace {

optimise::Answer search_in_turn(const Formulation& formulation, const optimise::Parts& parts,
                                const optimise::SearchOptions& options) {
  if (formulation.fewest_oils_at < 0) return optimise::search_parts(parts, options);

  const optimise::Problem& problem = formulation.problem;
  const auto at = static_cast<std::size_t>(formulation.fewest_oils_at);
  optimise::PartsAsked before;
  for (std::size_t g = 0; g < at; ++g) before.goals.push_back(g);
  const std::vector<optimise::Goal> first(problem.goals.begin(), problem.goals.begin() + Count(at));
  const optimise::Answer best = optimise::search_parts(parts, before, options);
  if (best.steps.empty()) return best;

  optimise::SearchOptions from = options;  // the best blend so far is never let go
  from.start = best.steps;
  int count = used(best.steps);
  bool proved = best.status == optimise::Status::optimal;
  int proved_above = 0;  // no blend with this many oils is as good
  for (int k = 1; k < count; ++k) {
    optimise::PartsAsked narrow = before;
    narrow.most_oils = k;
    const optimise::Answer found = optimise::search_parts(parts, narrow, options);
    if (!found.steps.empty() && as_good(found, best, first)) {
      count = k;
      from.start = found.steps;
      break;
    }
    const bool too_few =
        found.status == optimise::Status::infeasible || found.status == optimise::Status::optimal;
    proved = proved && too_few;
    if (too_few && proved_above == k - 1) proved_above = k;
  }
  optimise::PartsAsked last = before;
  last.most_oils = count;
  for (std::size_t g = at + 1; g < problem.goals.size(); ++g) last.goals.push_back(g);
  optimise::Answer answer = optimise::search_parts(parts, last, from);
  if (answer.steps.empty()) return answer;
  const optimise::GoalValue oils{static_cast<double>(count), static_cast<double>(proved_above + 1)};
  answer.goals.insert(answer.goals.begin() + Count(std::min(at, answer.goals.size())), oils);
  if (!proved && answer.status == optimise::Status::optimal) {
    answer.status = optimise::Status::feasible;
    answer.reason = "a blend of fewer oils was not excluded in the time given";
  }
  return answer;
}

// Tells what is seen in the words and unit of the maker's first goal.
class InWords : public optimise::Watch {
 public:
  InWords(const Formulation& formulation, GoalWatch& outer)
      : formulation_(formulation), outer_(outer) {}
  bool due() override { return outer_.due(); }
  void seen(std::size_t goal, double value, double bound) override {
    const bool found = value < optimise::kInfinity;
    if (goal > 0 || !found) return outer_.so_far({}, found, false);
    optimise::Answer answer;
    answer.status = optimise::Status::feasible;
    answer.goals.push_back({value, bound});
    outer_.so_far(claim_of(formulation_, answer), true, bound > -optimise::kInfinity);
  }

 private:
  const Formulation& formulation_;
  GoalWatch& outer_;
};

}  // namespace

optimise::Answer search_goals(const Formulation& formulation, const optimise::Parts& parts,
                              const optimise::SearchOptions& options) {
  auto* watch = dynamic_cast<GoalWatch*>(options.watch);
  if (watch == nullptr) return search_in_turn(formulation, parts, options);
  InWords in_words(formulation, *watch);
  optimise::SearchOptions told = options;
  told.watch = &in_words;
  return search_in_turn(formulation, parts, told);
}

}  // namespace barwright::formulate
