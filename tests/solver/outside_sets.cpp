#include "tests/solver/outside_sets.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <nlopt.hpp>

#include "solver/checker.hpp"

namespace barwright::solver::testing {
namespace {

struct Set {
  const Problem* problem;
  const std::vector<int>* oils;
  // Pulls and limits over the set only.
  std::vector<std::vector<double>> pulls, limits;
};

double dot(const std::vector<double>& a, const std::vector<double>& x) {
  double sum = 0;
  for (std::size_t i = 0; i < x.size(); ++i) sum += a[i] * x[i];
  return sum;
}

double goal(const std::vector<double>& x, std::vector<double>& gradient, void* data) {
  const Set& set = *static_cast<const Set*>(data);
  const Goal& g = set.problem->goals[0];
  std::fill(gradient.begin(), gradient.end(), 0.0);
  double value = 0;
  for (std::size_t k = 0; k < g.pulls.size(); ++k) {
    const double miss = dot(set.pulls[k], x) + g.pulls[k].form.constant - g.pulls[k].point;
    value += g.pulls[k].weight * miss * miss;
    for (std::size_t i = 0; i < gradient.size(); ++i)
      gradient[i] += 2 * g.pulls[k].weight * miss * set.pulls[k][i];
  }
  return value;
}

// All limits at once: row - high and low - row.
void limits(unsigned, double* out, unsigned n, const double* x, double* gradient, void* data) {
  const Set& set = *static_cast<const Set*>(data);
  for (std::size_t r = 0; r < set.limits.size(); ++r) {
    const Limit& limit = set.problem->limits[r];
    double at = limit.form.constant;
    for (unsigned i = 0; i < n; ++i) at += set.limits[r][i] * x[i];
    out[2 * r] = at - std::min(limit.high, 1e6);
    out[2 * r + 1] = std::max(limit.low, -1e6) - at;
    if (!gradient) continue;
    for (unsigned i = 0; i < n; ++i) {
      gradient[(2 * r) * n + i] = set.limits[r][i];
      gradient[(2 * r + 1) * n + i] = -set.limits[r][i];
    }
  }
}

double sum(const std::vector<double>& x, std::vector<double>& gradient, void*) {
  std::fill(gradient.begin(), gradient.end(), 1.0);
  double total = -1;
  for (double v : x) total += v;
  return total;
}

// The least the goal can be inside the set, or what is safe to believe of it.
double least_of(const Problem& problem, Set& set) {
  const std::size_t n = set.oils->size();
  std::vector<double> low, high, x;
  for (int oil : *set.oils) {
    low.push_back(double(problem.oils[std::size_t(oil)].least) / problem.steps);
    high.push_back(double(problem.oils[std::size_t(oil)].most) / problem.steps);
    x.push_back(std::clamp(1.0 / double(n), low.back(), high.back()));
  }
  try {
    nlopt::opt method(nlopt::LD_SLSQP, unsigned(n));
    method.set_lower_bounds(low);
    method.set_upper_bounds(high);
    method.set_min_objective(goal, &set);
    method.add_inequality_mconstraint(limits, &set,
                                      std::vector<double>(2 * set.limits.size(), 1e-10));
    method.add_equality_constraint(sum, nullptr, 1e-10);
    method.set_ftol_rel(1e-10);
    method.set_maxeval(300);
    double value = 0;
    method.optimize(x, value);
  } catch (const std::exception&) {
    return -kInfinity;  // nothing is known of this set
  }
  std::vector<double> none, out(2 * set.limits.size());
  limits(0, out.data(), unsigned(n), x.data(), nullptr, &set);
  const double broken = *std::max_element(out.begin(), out.end());
  if (broken > 1e-6 || std::abs(sum(x, none, nullptr)) > 1e-6)
    // No shares of the set were found that fit. To be safe: what would fit to a hundredth of a
    // point?
    return broken > 1e-2 ? kInfinity : -kInfinity;
  return goal(x, none, &set);
}

}  // namespace

SetsAnswer look_at_every_set(const Problem& problem, double known) {
  SetsAnswer out;
  out.value = known;
  const int n = int(problem.oils.size());
  std::vector<int> oils;
  const std::function<void(int)> choose = [&](int from) {
    if (!oils.empty()) {
      ++out.sets;
      int least = 0, most = 0;
      for (int oil : oils) {
        least += problem.oils[std::size_t(oil)].least;
        most += problem.oils[std::size_t(oil)].most;
      }
      if (least <= problem.steps && most >= problem.steps) {
        Set set{&problem, &oils, {}, {}};
        const auto over = [&](const Form& form) {
          std::vector<double> a;
          for (int oil : oils) a.push_back(form.linear[std::size_t(oil)]);
          return a;
        };
        for (const Pull& pull : problem.goals[0].pulls) set.pulls.push_back(over(pull.form));
        for (const Limit& limit : problem.limits) set.limits.push_back(over(limit.form));
        if (least_of(problem, set) < out.value + 1e-6) {
          ++out.opened;
          std::vector<int> w(std::size_t(n), 0);
          const std::function<void(std::size_t, int)> walk = [&](std::size_t i, int left) {
            const OilBounds& oil = problem.oils[std::size_t(oils[i])];
            if (i + 1 == oils.size()) {
              if (left < oil.least || left > oil.most) return;
              w[std::size_t(oils[i])] = left;
              const double value = problem.goals[0].at(problem.shares(w));
              if (value < out.value && check_steps(problem, w).empty()) {
                out.value = value;
                out.steps = w;
              }
              return;
            }
            for (int v = oil.least; v <= std::min(left, oil.most); ++v) {
              w[std::size_t(oils[i])] = v;
              walk(i + 1, left - v);
            }
          };
          walk(0, problem.steps);
        }
      }
    }
    if (int(oils.size()) == problem.most_oils) return;
    for (int i = from; i < n; ++i) {
      oils.push_back(i);
      choose(i + 1);
      oils.pop_back();
    }
  };
  choose(0);
  return out;
}

}  // namespace barwright::solver::testing
