#include "solver/curve.hpp"

#include <algorithm>
#include <stdexcept>

#include "solver/relax_wish.hpp"

namespace barwright::solver {
namespace {

CurvePoint point_of(const Problem& problem, const Form& second, Answer answer, double allowed) {
  CurvePoint point;
  point.allowed = allowed;
  if (!answer.steps.empty()) {
    point.second = second.at(problem.shares(answer.steps));
    if (!answer.goals.empty()) point.first = answer.goals[0].value;
  }
  point.answer = std::move(answer);
  return point;
}

}  // namespace

Curve trade_off(const Problem& problem, const Form& second, int points,
                const SearchOptions& options) {
  if (points < 2 || problem.goals.empty()) {
    throw std::invalid_argument("a trade-off needs a goal and at least two points");
  }
  Curve curve;
  Problem least = problem;
  least.goals = {Goal{second, {}, 0}};
  Answer low = search(least, options);

  // At one value of the first goal the lower second form is the better blend. A curved goal hardly
  // ever ties, and keeping its value while searching on costs more than the whole curve.
  Problem capped = problem;
  capped.goals = {problem.goals[0]};
  if (problem.goals[0].pulls.empty()) capped.goals.push_back(Goal{second, {}, 0});
  Answer start = low.status == Status::infeasible ? low : search(capped, options);
  curve.status = start.status;
  if (start.steps.empty()) return curve;
  curve.proved = low.status == Status::optimal && start.status == Status::optimal;
  curve.points.push_back(point_of(problem, second, std::move(start), kInfinity));
  if (low.steps.empty()) return curve;

  const double top = curve.points[0].second;
  const double bottom = std::min(top, second.at(problem.shares(low.steps)));
  curve.points[0].allowed = top;
  const std::size_t limit = capped.limits.size();
  capped.limits.push_back({second, -kInfinity, top, -1});
  for (int k = 1; k < points; ++k) {
    const double allowed =
        k == points - 1 ? bottom : top + (bottom - top) * k / static_cast<double>(points - 1);
    const CurvePoint& before = curve.points.back();
    if (before.second <= allowed) {
      CurvePoint same = before;
      same.allowed = allowed;
      same.new_blend = false;
      curve.points.push_back(std::move(same));
      continue;
    }
    if (out_of_time(options)) {
      curve.proved = false;
      break;
    }
    capped.limits[limit].high = allowed;
    Answer answer = search(capped, options);
    curve.proved = curve.proved && answer.status == Status::optimal;
    if (answer.steps.empty()) break;
    curve.points.push_back(point_of(problem, second, std::move(answer), allowed));
  }
  return curve;
}

}  // namespace barwright::solver
