#include "solver/formulate/goal_search.hpp"

#include <algorithm>
#include <cmath>

namespace barwright::solver {
namespace {

using Count = std::vector<Goal>::difference_type;

int used(const std::vector<int>& steps) {
  return static_cast<int>(std::count_if(steps.begin(), steps.end(), [](int w) { return w > 0; }));
}

// Whether `answer` is as good as `best` in each goal, what the goal gives way by allowed for.
bool as_good(const Answer& answer, const Answer& best, const std::vector<Goal>& goals) {
  for (std::size_t g = 0; g < goals.size(); ++g) {
    // From the bound: the value may have given way to a later goal already.
    const double bound = best.goals[g].bound;
    const double slack = kGap * std::max(1.0, std::abs(bound));
    if (answer.goals[g].value > goals[g].moved(bound, goals[g].give) + slack) return false;
  }
  return true;
}

}  // namespace

Answer search_goals(const Formulation& formulation, const SearchOptions& options) {
  const Problem& whole = formulation.problem;
  if (formulation.fewest_oils_at < 0) return search(whole, options);

  const Count at = formulation.fewest_oils_at;
  Problem before = whole;
  before.goals.assign(whole.goals.begin(), whole.goals.begin() + at);
  const Answer best = search(before, options);
  if (best.steps.empty()) return best;

  int count = used(best.steps);
  bool proved = best.status == Status::optimal;
  int proved_above = 0;  // no blend with this many oils is as good
  for (int k = 1; k < count; ++k) {
    Problem narrow = before;
    narrow.most_oils = k;
    const Answer found = search(narrow, options);
    if (!found.steps.empty() && as_good(found, best, before.goals)) {
      count = k;
      break;
    }
    const bool too_few = found.status == Status::infeasible || found.status == Status::optimal;
    proved = proved && too_few;
    if (too_few && proved_above == k - 1) proved_above = k;
  }
  Problem last = whole;
  last.most_oils = count;
  last.goals.erase(last.goals.begin() + at);
  Answer answer = search(last, options);
  if (answer.steps.empty()) return answer;
  const GoalValue oils{static_cast<double>(count), static_cast<double>(proved_above + 1)};
  answer.goals.insert(
      answer.goals.begin() + std::min<Count>(at, static_cast<Count>(answer.goals.size())), oils);
  if (!proved && answer.status == Status::optimal) {
    answer.status = Status::feasible;
    answer.reason = "a blend of fewer oils was not excluded in the time given";
  }
  return answer;
}

}  // namespace barwright::solver
