// One tree per goal: the first is proved, then becomes a ceiling for the next.

#include "solver/optimise/search.hpp"

#include <algorithm>
#include <cmath>

#include "solver/optimise/checker.hpp"
#include "solver/optimise/relax.hpp"
#include "solver/optimise/tie.hpp"
#include "solver/optimise/tree.hpp"

namespace barwright::solver {
namespace {

bool within(const std::vector<Ceiling>& ceilings, std::span<const double> x) {
  return std::all_of(ceilings.begin(), ceilings.end(),
                     [&](const Ceiling& c) { return c.goal->at(x) <= c.most; });
}

Answer settle(Answer answer, bool finished, const SearchOptions& options) {
  if (answer.steps.empty()) {
    answer.status = finished ? Status::infeasible : Status::undecided;
  } else {
    answer.status = finished ? Status::optimal : Status::feasible;
  }
  std::string stop = "the time was up";
  if (options.stop && options.stop->load())
    stop = "stopped by hand";
  else if ((options.allowance != nullptr && options.allowance->used_up()) ||
           (options.most_nodes > 0 && answer.stats.nodes >= options.most_nodes))
    stop = "the allowance was used up";
  switch (answer.status) {
    case Status::optimal:
      answer.reason = "every other blend was proved to be no better";
      break;
    case Status::infeasible:
      answer.reason = "every blend was proved to break a limit";
      break;
    case Status::feasible:
      answer.reason = stop + " before a better blend was excluded";
      break;
    case Status::undecided:
      answer.reason = stop + " before a blend was found or excluded";
      break;
  }
  return answer;
}

// Whether no blend can be better by more than the goal's tie.
bool closed(const Goal& goal, const TreeResult& result) {
  const double gap = kGap * std::max(1.0, std::abs(result.value));
  return result.value - result.bound <= gap ||
         goal.moved(result.value, -goal.tie) - result.bound <= 1e-9 * gap;
}

bool only_squares(const Goal& goal) {
  return goal.form.kinks.empty() && goal.form.guards.empty() &&
         std::all_of(goal.form.linear.begin(), goal.form.linear.end(),
                     [](double c) { return c == 0; });
}

// A range whose ends are further apart than the checker lets pass at both: no relaxation needed.
bool upside_down(const Problem& problem) {
  return std::any_of(problem.limits.begin(), problem.limits.end(), [](const Limit& limit) {
    return limit.low > limit.high + 2 * kTolerance * limit.form.scale();
  });
}

}  // namespace

Answer search(const Problem& problem, const SearchOptions& options) {
  problem.validate();
  if (upside_down(problem)) {
    Answer none;
    none.status = Status::infeasible;
    none.reason = "a floor lies above its own ceiling";
    return none;
  }
  const Goal any{Form{0, std::vector<double>(problem.oils.size(), 0.0), {}}, {}, 0};
  std::vector<const Goal*> goals;
  for (const Goal& goal : problem.goals) goals.push_back(&goal);
  if (goals.empty()) goals.push_back(&any);

  Answer answer;
  std::vector<Ceiling> ceilings;
  if (options.start.size() == problem.oils.size() && fits(problem, options.start))
    answer.steps = options.start;
  bool finished = true;
  std::vector<int> first;
  for (const Goal* goal : goals) {
    const Relaxation relaxation(problem, *goal, ceilings, !options.plain);
    TreeTask task;
    task.problem = &problem;
    task.goal = goal;
    task.relaxation = &relaxation;
    task.options = &options;
    task.start = answer.steps;
    if (only_squares(*goal)) task.floor = goal->form.constant;
    task.accept = [&](std::span<const int> steps) {
      return fits(problem, steps) && within(ceilings, problem.shares(steps));
    };
    TreeResult result = grow_tree(task, answer.stats);
    if (result.value < kInfinity)
      result.bound = std::max(result.bound, std::min(task.floor, result.value));
    // Finished trees have closed their gap: see Tree::proof.
    finished = result.finished && (result.steps.empty() || closed(*goal, result));
    answer.steps = result.steps;
    if (result.steps.empty()) break;
    if (goal != &any) answer.goals.push_back({result.value, result.bound});
    if (!finished) break;
    if (goal == goals.front()) first = answer.steps;
    // With a tie the best may lie lower than the value found: what gives way is counted from there.
    const double least = goal->tie > 0 ? result.bound : result.value;
    ceilings.push_back({goal, std::max(result.value, goal->moved(least, goal->give)) +
                                  kTolerance * std::max(1.0, std::abs(result.value))});
  }
  if (!answer.steps.empty() && !options.plain) {
    const std::size_t last = answer.goals.size();  // the goal worked on keeps its value, too
    answer.steps =
        prefer_earlier(problem, std::move(answer.steps), [&](std::span<const int> steps) {
          if (!fits(problem, steps)) return false;
          const auto x = problem.shares(steps);
          for (std::size_t g = 0; g < last; ++g)
            if (problem.goals[g].at(x) >
                answer.goals[g].value + 1e-12 * std::abs(answer.goals[g].value))
              return false;
          return within(ceilings, x);
        });
  }
  answer = settle(std::move(answer), finished, options);
  // Later goals may have used what earlier ones give: the values told are those of the blend told.
  if (!answer.steps.empty()) {
    const auto x = problem.shares(answer.steps);
    for (std::size_t g = 0; g < answer.goals.size(); ++g)
      answer.goals[g].value = problem.goals[g].at(x);
    if (first != answer.steps) answer.best_at_first = std::move(first);
  }
  return answer;
}

}  // namespace barwright::solver
