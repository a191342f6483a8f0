#include "solver/explain/curve.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "solver/explain/relax_wish.hpp"
#include "solver/optimise/proof.hpp"

namespace barwright::explain {
namespace {

CurvePoint point_of(const optimise::Problem& problem, const optimise::Form& second,
                    optimise::Answer answer, double allowed) {
  CurvePoint point;
  point.allowed = allowed;
  if (!answer.steps.empty()) {
    point.second = second.at(problem.shares(answer.steps));
    if (!answer.goals.empty()) point.first = answer.goals[0].value;
  }
  point.answer = std::move(answer);
  return point;
}

// Where the curve ends: at the least the second form can be, if that is proved in a short search
// and its best first goal as well; else within kEnd of it, as a share of what the form spans over
// the oils. A score that ranges nearly determine has a least in the seventh decimal that is a
// question about whole steps, not about bars, and took a thousand times longer than the curve.
constexpr double kEnd = 1e-3;
constexpr std::uint64_t kShort = 2000;  // parts of the tree

double spread(const optimise::Form& form) {
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
  Tracer(optimise::Problem capped, const optimise::Form& second,
         const optimise::SearchOptions& options, std::vector<double> allowed)
      : problem_(std::move(capped)),
        second_(second),
        options_(options),
        allowed_(std::move(allowed)),
        points_(allowed_.size()) {
    problem_.limits.push_back({second_, -optimise::kInfinity, optimise::kInfinity, -1});
  }

  void put(std::size_t k, CurvePoint point) { points_[k] = std::move(point); }

  /// Solves point k, starting from a blend that fits there.
  void solve(std::size_t k, const std::vector<int>& start) {
    if (out_of_time(options_)) return;
    problem_.limits.back().high = allowed_[k];
    optimise::SearchOptions options = options_;
    options.start = start;
    optimise::Answer answer = optimise::search(problem_, options);
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

  /// Those that were reached, in order. Where a tighter point's blend is as good, it is taken.
  std::vector<CurvePoint> take() {
    std::vector<CurvePoint> out;
    for (std::size_t k = points_.size() - 1; k-- > 0;) {
      if (!points_[k] || !points_[k + 1] || !level(*points_[k], *points_[k + 1])) continue;
      const double bound = points_[k]->answer.goals[0].bound;
      points_[k] = points_[k + 1];
      points_[k]->allowed = allowed_[k];
      points_[k]->answer.goals[0].bound = bound;
    }
    for (auto& point : points_) {
      if (!point) continue;
      // What was carried from other points counts, not how the point's own search ended.
      if (!point->answer.goals.empty()) {
        const bool proved = optimise::is_proved(problem_.goals[0], point->answer.goals[0]);
        point->answer.status = proved ? optimise::Status::optimal : optimise::Status::feasible;
      }
      point->new_blend = out.empty() || out.back().answer.steps != point->answer.steps;
      out.push_back(std::move(*point));
    }
    return out;
  }

 private:
  // Whether the tight point's blend is proved as good as anything under the loose ceiling.
  static bool level(const CurvePoint& loose, const CurvePoint& tight) {
    return !loose.answer.goals.empty() &&
           tight.first - loose.answer.goals[0].bound <= optimise::slip(tight.first);
  }

  optimise::Problem problem_;
  const optimise::Form& second_;
  const optimise::SearchOptions& options_;
  std::vector<double> allowed_;
  std::vector<std::optional<CurvePoint>> points_;
};

// The tight end: the ceiling there, a blend that keeps it, and the point where it is known already.
struct End {
  double allowed = 0;
  optimise::Answer blend;
  std::optional<CurvePoint> point;
  bool proved = false;  ///< nothing lies below it by more than the tie it was sought to
};

End find_end(const optimise::Problem& problem, const optimise::Problem& capped,
             const optimise::Form& second, double tie, const CurvePoint& first,
             const optimise::SearchOptions& options) {
  End end;
  optimise::Problem least = problem;
  least.goals = {optimise::Goal{second, {}, 0, 0}};
  optimise::SearchOptions briefly = options;
  briefly.start = first.answer.steps;
  briefly.most_nodes = kShort;
  end.blend = optimise::search(least, briefly);
  const bool exact = end.blend.status == optimise::Status::optimal;
  // Each try starts from the blend of the one before; a tie as wide as the curve ends at once.
  while (end.blend.status == optimise::Status::feasible && !out_of_time(options)) {
    least.goals[0].tie = tie;
    briefly.start = end.blend.steps;
    end.blend = optimise::search(least, briefly);
    if (end.blend.status == optimise::Status::feasible) tie *= 4;
  }
  if (end.blend.steps.empty()) return end;
  end.proved = !end.blend.goals.empty() && optimise::is_proved(least.goals[0], end.blend.goals[0]);
  const double least_value = second.at(problem.shares(end.blend.steps));
  end.allowed = std::min(first.second, least_value);
  if (first.second <= end.allowed) {  // one blend is best at both
    end.point = first;
    end.point->allowed = end.allowed;
    return end;
  }
  if (exact) {
    optimise::Problem there = capped;
    there.limits.push_back({second, -optimise::kInfinity, end.allowed, -1});
    briefly.start = end.blend.steps;
    optimise::Answer answer = optimise::search(there, briefly);
    if (answer.status == optimise::Status::optimal) {
      end.point = point_of(there, second, std::move(answer), end.allowed);
      return end;
    }
  }
  end.allowed = std::min(first.second, least_value + tie);
  return end;
}

}  // namespace

Curve trade_off(const optimise::Problem& problem, const optimise::Form& second, int points,
                const optimise::SearchOptions& options) {
  if (points < 2 || problem.goals.empty()) {
    throw std::invalid_argument("a trade-off needs a goal and at least two points");
  }
  Curve curve;
  const double span = spread(second);
  const double tie = 0.5 * kEnd * (span > 0 ? span : second.scale());

  // At one value of the first goal the lower second form is the better blend: sought for the loose
  // end, so that the curve starts where it begins to rise; elsewhere it is the next point's. A
  // curved goal hardly ever ties, and keeping its value while searching on costs more than the
  // whole curve.
  optimise::Problem capped = problem;
  capped.goals = {problem.goals[0]};
  if (problem.goals[0].pulls.empty()) capped.goals.push_back(optimise::Goal{second, {}, 0, tie});
  optimise::Answer start = optimise::search(capped, options);
  curve.status = start.status;
  if (start.steps.empty()) return curve;
  bool start_proved = start.goals.size() == capped.goals.size();
  for (std::size_t g = 0; start_proved && g < start.goals.size(); ++g)
    start_proved = optimise::is_proved(capped.goals[g], start.goals[g]);
  capped.goals.resize(1);
  CurvePoint first = point_of(problem, second, std::move(start), optimise::kInfinity);
  const double top = first.second;
  first.allowed = top;
  const End end = find_end(problem, capped, second, tie, first, options);
  if (end.blend.steps.empty()) {
    curve.points.push_back(std::move(first));
    return curve;
  }
  const std::size_t last = static_cast<std::size_t>(points) - 1;
  std::vector<double> allowed;
  for (std::size_t k = 0; k <= last; ++k)
    allowed.push_back(k == last ? end.allowed
                                : top + (end.allowed - top) * static_cast<double>(k) /
                                            static_cast<double>(last));
  Tracer tracer(std::move(capped), second, options, allowed);
  if (end.point)
    tracer.put(last, *end.point);
  else
    tracer.solve(last, end.blend.steps);
  tracer.put(0, std::move(first));
  tracer.fill(0, last);
  curve.points = tracer.take();
  curve.proved = start_proved && end.proved && curve.points.size() == last + 1 &&
                 std::all_of(curve.points.begin(), curve.points.end(), [](const CurvePoint& p) {
                   return p.answer.status == optimise::Status::optimal;
                 });
  return curve;
}

}  // namespace barwright::explain
