#include "solver/curve.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
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

// How near the curve goes to the least the second form can be, as a share of what it spans over the
// oils. The last millionth is a question about whole steps, not about bars, and used to take longer
// than all the points together.
constexpr double kEnd = 1e-4;

double spread(const Form& form) {
  const auto [least, most] = std::minmax_element(form.linear.begin(), form.linear.end());
  return *most - *least;
}

// The points between two that are known. What is carried from one to another, and why that is
// sound: going from a loose ceiling to a tight one only takes blends away. So the loose point's
// best blend, where it keeps the tighter ceiling, is best there too; the loose point's bound holds
// there as well; and the tight point's blend fits under every looser ceiling, where the search
// starts from it.
class Tracer {
 public:
  Tracer(Problem capped, const Form& second, const SearchOptions& options,
         std::vector<double> allowed)
      : problem_(std::move(capped)),
        second_(second),
        options_(options),
        allowed_(std::move(allowed)),
        points_(allowed_.size()) {
    problem_.limits.push_back({second_, -kInfinity, kInfinity, -1});
  }

  void put(std::size_t k, CurvePoint point) { points_[k] = std::move(point); }

  /// Solves point k, starting from a blend that fits there.
  void solve(std::size_t k, const std::vector<int>& start) {
    if (out_of_time(options_)) return;
    problem_.limits.back().high = allowed_[k];
    SearchOptions options = options_;
    options.start = start;
    Answer answer = search(problem_, options);
    if (!answer.steps.empty())
      points_[k] = point_of(problem_, second_, std::move(answer), allowed_[k]);
  }

  /// All between the looser a and the tighter b, halving.
  void fill(std::size_t a, std::size_t b) {
    if (b - a < 2) return;
    const std::size_t m = a + (b - a) / 2;
    const auto &loose = points_[a], &tight = points_[b];
    if (loose && loose->second <= allowed_[m]) {
      points_[m] = loose;
    } else if (loose && tight && level(*loose, *tight)) {
      points_[m] = tight;
      points_[m]->answer.goals[0].bound = loose->answer.goals[0].bound;
    } else {
      solve(m, tight ? tight->answer.steps : std::vector<int>{});
    }
    if (points_[m]) points_[m]->allowed = allowed_[m];
    fill(a, m);
    fill(m, b);
  }

  /// Those that were reached, in order.
  std::vector<CurvePoint> take() {
    std::vector<CurvePoint> out;
    for (auto& point : points_) {
      if (!point) continue;
      point->new_blend = out.empty() || out.back().answer.steps != point->answer.steps;
      out.push_back(std::move(*point));
    }
    return out;
  }

 private:
  // Whether the tight point's blend is proved as good as anything under the loose ceiling.
  static bool level(const CurvePoint& loose, const CurvePoint& tight) {
    return loose.answer.status == Status::optimal && !loose.answer.goals.empty() &&
           tight.first - loose.answer.goals[0].bound <= kGap * std::max(1.0, std::abs(tight.first));
  }

  Problem problem_;
  const Form& second_;
  const SearchOptions& options_;
  std::vector<double> allowed_;
  std::vector<std::optional<CurvePoint>> points_;
};

}  // namespace

Curve trade_off(const Problem& problem, const Form& second, int points,
                const SearchOptions& options) {
  if (points < 2 || problem.goals.empty()) {
    throw std::invalid_argument("a trade-off needs a goal and at least two points");
  }
  Curve curve;
  Problem least = problem;
  const double tie = 0.5 * kEnd * spread(second);
  least.goals = {Goal{second, {}, 0, tie}};
  const Answer low = search(least, options);

  // At one value of the first goal the lower second form is the better blend. A curved goal hardly
  // ever ties, and keeping its value while searching on costs more than the whole curve.
  Problem capped = problem;
  capped.goals = {problem.goals[0]};
  if (problem.goals[0].pulls.empty()) capped.goals.push_back(Goal{second, {}, 0});
  SearchOptions from_low = options;
  from_low.start = low.steps;
  Answer start = low.status == Status::infeasible ? low : search(capped, from_low);
  curve.status = start.status;
  if (start.steps.empty()) return curve;
  CurvePoint first = point_of(problem, second, std::move(start), kInfinity);
  const double top = first.second;
  first.allowed = top;
  const bool ends_proved = low.status == Status::optimal && first.answer.status == Status::optimal;
  if (low.steps.empty()) {
    curve.points.push_back(std::move(first));
    return curve;
  }
  const double bottom = std::min(top, second.at(problem.shares(low.steps)) + tie);
  const std::size_t last = static_cast<std::size_t>(points) - 1;
  std::vector<double> allowed;
  for (std::size_t k = 0; k <= last; ++k)
    allowed.push_back(k == last ? bottom
                                : top + (bottom - top) * static_cast<double>(k) /
                                            static_cast<double>(last));
  Tracer tracer(std::move(capped), second, options, allowed);
  if (first.second <= bottom) {  // one blend is best at both
    CurvePoint same = first;
    same.allowed = bottom;
    tracer.put(last, std::move(same));
  } else {
    tracer.solve(last, low.steps);
  }
  tracer.put(0, std::move(first));
  tracer.fill(0, last);
  curve.points = tracer.take();
  curve.proved = ends_proved && curve.points.size() == last + 1 &&
                 std::all_of(curve.points.begin(), curve.points.end(), [](const CurvePoint& p) {
                   return p.answer.status == Status::optimal;
                 });
  return curve;
}

}  // namespace barwright::solver
