#include "solver/optimise/polish.hpp"

#include <algorithm>
#include <cmath>
#include <nlopt.hpp>
#include <numeric>

#include "solver/optimise/checker.hpp"

namespace barwright::optimise {
namespace {

// Adds factor * d form / d x_i over the set; at a bend either side will do.
double form_over(const Form& form, std::span<const int> oils, std::span<const double> x,
                 std::span<double> gradient, double factor) {
  const auto dot = [&](const std::vector<double>& a) {
    double sum = 0;
    for (std::size_t i = 0; i < oils.size(); ++i) sum += a[std::size_t(oils[i])] * x[i];
    return sum;
  };
  const auto add = [&](const std::vector<double>& a, double f) {
    for (std::size_t i = 0; i < gradient.size(); ++i) gradient[i] += f * a[std::size_t(oils[i])];
  };
  double value = form.constant + dot(form.linear);
  add(form.linear, factor);
  for (const Kink& kink : form.kinks) {
    const double s = dot(kink.slope);
    value += kink.weight * std::min(s, kink.cap);
    if (s < kink.cap) add(kink.slope, factor * kink.weight);
  }
  if (form.guards.empty()) return value;
  std::vector<double> shares(form.linear.size(), 0.0), slope(form.linear.size());
  for (std::size_t i = 0; i < oils.size(); ++i) shares[std::size_t(oils[i])] = x[i];
  for (const Guard& guard : form.guards) {
    value += guard.weight * guard.part->at(shares);
    guard.part->plane(shares, slope);
    add(slope, factor * guard.weight);
  }
  return value;
}

using Function = std::function<double(std::span<const double>, std::span<double>)>;

double call(const std::vector<double>& x, std::vector<double>& gradient, void* data) {
  return (*static_cast<const Function*>(data))(x, gradient);
}

}  // namespace

void minimise_with_nlopt(const PolishTask& task, std::vector<double>& x) {
  try {
    nlopt::opt method(nlopt::LD_SLSQP, unsigned(x.size()));
    method.set_lower_bounds(task.low);
    method.set_upper_bounds(task.high);
    Function goal = task.goal;
    method.set_min_objective(call, &goal);
    std::vector<Function> limits = task.limits;
    for (Function& limit : limits) method.add_inequality_constraint(call, &limit, 1e-12);
    Function sum = [](std::span<const double> at, std::span<double> gradient) {
      std::fill(gradient.begin(), gradient.end(), 1.0);
      return std::accumulate(at.begin(), at.end(), -1.0);
    };
    method.add_equality_constraint(call, &sum, 1e-12);
    method.set_xtol_abs(1e-12);
    method.set_maxeval(200);
    double value = 0;
    method.optimize(x, value);
  } catch (const std::exception&) {
    // "roundoff-limited" and the like: x is what it is, and the checker will look at it.
  }
}

std::optional<std::vector<double>> polish(const Problem& problem, const Goal& goal,
                                          std::span<const int> oils, std::span<const double> start,
                                          const Minimiser& minimise) {
  PolishTask task;
  std::vector<double> x;
  for (int oil : oils) {
    const OilBounds& bounds = problem.oils[std::size_t(oil)];
    task.low.push_back(double(bounds.least) / problem.steps);
    task.high.push_back(double(bounds.most) / problem.steps);
    x.push_back(start[std::size_t(oil)]);
  }
  task.goal = [&](std::span<const double> at, std::span<double> gradient) {
    std::fill(gradient.begin(), gradient.end(), 0.0);
    double value = form_over(goal.form, oils, at, gradient, 1);
    for (const Pull& pull : goal.pulls) {
      const double miss = form_over(pull.form, oils, at, {}, 0) - pull.point;
      form_over(pull.form, oils, at, gradient, 2 * pull.weight * miss);
      value += pull.weight * miss * miss;
    }
    return value;
  };
  for (const Limit& limit : problem.limits)
    for (const double sign : {1.0, -1.0}) {
      const double bound = sign > 0 ? limit.high : -limit.low;
      if (bound == kInfinity) continue;
      task.limits.push_back(
          [&, sign, bound](std::span<const double> at, std::span<double> gradient) {
            std::fill(gradient.begin(), gradient.end(), 0.0);
            return sign * form_over(limit.form, oils, at, gradient, sign) - bound;
          });
    }
  minimise(task, x);
  if (x.size() != oils.size()) return std::nullopt;
  std::vector<double> shares(problem.oils.size(), 0.0);
  for (std::size_t i = 0; i < oils.size(); ++i) shares[std::size_t(oils[i])] = x[i];
  // The sum is 100 % by construction: the largest share takes up what rounding left.
  const double rest = 1 - std::accumulate(shares.begin(), shares.end(), 0.0);
  if (!(std::abs(rest) < 1e-6)) return std::nullopt;
  *std::max_element(shares.begin(), shares.end()) += rest;
  if (!check_shares(problem, shares).empty()) return std::nullopt;
  if (!(goal.at(shares) <= goal.at(start))) return std::nullopt;
  return shares;
}

std::vector<int> to_steps(const Problem& problem, const Goal& goal, std::span<const double> shares,
                          const std::function<bool(std::span<const int>)>& accept) {
  std::vector<int> w(shares.size(), 0);
  std::vector<std::size_t> used;
  int left = problem.steps;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    if (!(shares[i] > kTolerance)) continue;
    used.push_back(i);
    w[i] = int(std::floor(shares[i] * problem.steps + 1e-9));
    left -= w[i];
  }
  if (left < 0 || left > int(used.size())) return {};
  const auto fraction = [&](std::size_t i) { return shares[i] * problem.steps - w[i]; };
  std::vector<std::size_t> by_fraction = used;
  std::stable_sort(by_fraction.begin(), by_fraction.end(),
                   [&](std::size_t a, std::size_t b) { return fraction(a) > fraction(b); });
  for (int k = 0; k < left; ++k) ++w[by_fraction[std::size_t(k)]];
  bool fits = accept(w);
  double value = fits ? goal.at(problem.shares(w)) : kInfinity;
  std::vector<int> best = fits ? w : std::vector<int>{};
  for (int round = 0; round < 50; ++round) {
    std::vector<int> next;
    for (std::size_t from : used)
      for (std::size_t to : used) {
        if (from == to || w[from] <= problem.oils[from].least || w[to] >= problem.oils[to].most)
          continue;
        std::vector<int> moved = w;
        --moved[from];
        ++moved[to];
        const double now = goal.at(problem.shares(moved));
        if (now < value - 1e-12 * std::abs(value) && accept(moved)) {
          value = now;
          next = std::move(moved);
        }
      }
    if (next.empty()) break;
    w = best = std::move(next);
  }
  return best;
}

}  // namespace barwright::optimise
