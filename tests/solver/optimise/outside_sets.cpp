#include "tests/solver/optimise/outside_sets.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <functional>
#include <nlopt.hpp>
#include <stdexcept>

#include "solver/optimise/checker.hpp"
#include "tests/solver/optimise/outside_set.hpp"

namespace barwright::testing {
namespace {

constexpr double kOpen = 1e6;  // stands for a limit that is not there

double goal(unsigned, const double* x, double* gradient, void* data) {
  return static_cast<const Set*>(data)->at(x, gradient);
}

double sum(unsigned n, const double* x, double* gradient, void*) {
  double total = -1;
  for (unsigned i = 0; i < n; ++i) total += x[i];
  if (gradient) std::fill_n(gradient, n, 1.0);
  return total;
}

// All limits at once: row - high and low - row.
void limits(unsigned, double* out, unsigned n, const double* x, double* gradient, void* data) {
  const Set& set = *static_cast<const Set*>(data);
  for (std::size_t r = 0; r < set.ranges.size(); ++r) {
    const Range& range = set.ranges[r];
    double at = 0;
    for (unsigned i = 0; i < n; ++i) at += range.a[i] * x[i];
    out[2 * r] = at - std::min(range.high, kOpen);
    out[2 * r + 1] = std::max(range.low, -kOpen) - at;
    if (!gradient) continue;
    for (unsigned i = 0; i < n; ++i) {
      gradient[(2 * r) * n + i] = range.a[i];
      gradient[(2 * r + 1) * n + i] = -range.a[i];
    }
  }
}

// The least the goal can be over the set's shares, as NLopt finds it from `x`; -infinity when what
// it left there does not fit, so that nothing is known.
double minimise(Set& set, std::vector<double>& x) {
  const unsigned n = unsigned(set.n);
  try {
    nlopt::opt method(nlopt::LD_SLSQP, n);
    method.set_lower_bounds(std::vector<double>(set.low.begin(), set.low.begin() + n));
    method.set_upper_bounds(std::vector<double>(set.high.begin(), set.high.begin() + n));
    method.set_min_objective(goal, &set);
    if (!set.ranges.empty())
      method.add_inequality_mconstraint(limits, &set,
                                        std::vector<double>(2 * set.ranges.size(), 1e-10));
    method.add_equality_constraint(sum, nullptr, 1e-10);
    method.set_ftol_rel(1e-10);
    method.set_maxeval(300);
    double value = 0;
    method.optimize(x, value);
  } catch (const std::exception&) {
    return -optimise::kInfinity;
  }
  std::vector<double> out(2 * set.ranges.size());
  limits(0, out.data(), n, x.data(), nullptr, &set);
  for (double broken : out)
    if (!(broken <= kMargin)) return -optimise::kInfinity;
  if (!(std::abs(sum(n, x.data(), nullptr, nullptr)) <= kMargin)) return -optimise::kInfinity;
  return set.at(x.data(), nullptr);
}

// Every blend of the set in whole steps. A partial blend is left when a limit is out of reach of
// the oils still to come; the last two oils are one straight line, along which the goal is a
// parabola and only the steps where it lies below the best value are of interest.
class Walk {
 public:
  Walk(const optimise::Problem& problem, const Set& set, const std::vector<int>& oils,
       SetsAnswer& best)
      : problem_(problem), set_(set), oils_(oils), best_(best), w_(problem.oils.size(), 0) {}

  void run() {
    std::vector<double> at, miss;
    for (std::size_t r = 0; r < set_.ranges.size(); ++r) at.push_back(0);
    for (const Square& square : set_.squares) miss.push_back(square.miss);
    go(0, problem_.steps, set_.constant, at, miss);
  }

 private:
  const optimise::OilBounds& bounds(int i) const {
    return problem_.oils[std::size_t(oils_[std::size_t(i)])];
  }

  void offer() {
    const double value = problem_.goals[0].at(problem_.shares(w_));
    if (value < best_.value && optimise::check_steps(problem_, w_).empty()) {
      best_.value = value;
      best_.steps = w_;
    }
  }

  void go(int i, int left, double linear, const std::vector<double>& at,
          const std::vector<double>& miss) {
    const int n = set_.n, remain = n - i;
    const double step = 1.0 / set_.steps;
    for (std::size_t r = 0; r < at.size(); ++r) {
      const Range& range = set_.ranges[r];
      const Interval can =
          reach(range.a.data() + i, set_.low.data() + i, set_.high.data() + i, remain, left * step);
      if (at[r] + can.low > range.high + kMargin * range.scale ||
          at[r] + can.high < range.low - kMargin * range.scale)
        return;
    }
    if (remain == 1) {
      if (left < bounds(i).least || left > bounds(i).most) return;
      w_[std::size_t(oils_[std::size_t(i)])] = left;
      offer();
      w_[std::size_t(oils_[std::size_t(i)])] = 0;
      return;
    }
    int least = 0, most = 0;
    for (int k = i + 1; k < n; ++k) {
      least += bounds(k).least;
      most += bounds(k).most;
    }
    const int from = std::max(bounds(i).least, left - most);
    const int to = std::min(bounds(i).most, left - least);
    if (from > to) return;
    if (remain == 2) return line(i, left, linear, miss, from, to);
    std::vector<double> next_at(at), next_miss(miss);
    for (int v = from; v <= to; ++v) {
      const double x = v * step;
      for (std::size_t r = 0; r < at.size(); ++r)
        next_at[r] = at[r] + set_.ranges[r].a[std::size_t(i)] * x;
      for (std::size_t s = 0; s < miss.size(); ++s)
        next_miss[s] = miss[s] + set_.squares[s].g[std::size_t(i)] * x;
      w_[std::size_t(oils_[std::size_t(i)])] = v;
      go(i + 1, left - v, linear + set_.linear[std::size_t(i)] * x, next_at, next_miss);
    }
    w_[std::size_t(oils_[std::size_t(i)])] = 0;
  }

  // p + q v + r v^2 for v steps of the last oil but one, the rest of `left` of the last.
  void line(int i, int left, double linear, const std::vector<double>& miss, int from, int to) {
    const std::size_t a = std::size_t(i), b = a + 1;
    const double step = 1.0 / set_.steps;
    double p = linear + set_.linear[b] * left * step;
    double q = (set_.linear[a] - set_.linear[b]) * step, r = 0;
    for (std::size_t s = 0; s < miss.size(); ++s) {
      const Square& square = set_.squares[s];
      const double base = miss[s] + square.g[b] * left * step;
      const double slope = (square.g[a] - square.g[b]) * step;
      p += square.weight * base * base;
      q += 2 * square.weight * base * slope;
      r += square.weight * slope * slope;
    }
    for (int v = from; v <= to; ++v) {
      const double value = p + v * (q + v * r);
      if (value > best_.value + kMargin * std::max(1.0, std::abs(best_.value))) {
        // Above, and rising from here on: so are all that follow.
        if (q + r * (2 * v + 1) >= 0) break;
        continue;
      }
      w_[std::size_t(oils_[a])] = v;
      w_[std::size_t(oils_[b])] = left - v;
      offer();
    }
    w_[std::size_t(oils_[a])] = w_[std::size_t(oils_[b])] = 0;
  }

  const optimise::Problem& problem_;
  const Set& set_;
  const std::vector<int>& oils_;
  SetsAnswer& best_;
  std::vector<int> w_;
};

struct Candidate {
  double bound;
  std::vector<int> oils;
};

}  // namespace

SetsAnswer look_at_every_set(const optimise::Problem& problem) {
  const bool straight =
      std::all_of(problem.limits.begin(), problem.limits.end(),
                  [](const optimise::Limit& limit) { return limit.form.is_linear(); });
  if (!straight || problem.most_oils < 1 || problem.most_oils > kMost)
    throw std::invalid_argument("every set: linear limits and 1 to 8 oils only");
  SetsAnswer out;
  const int n = int(problem.oils.size());
  std::vector<Candidate> left;
  std::vector<int> oils;
  Point at;
  const std::function<void(int)> choose = [&](int from) {
    if (!oils.empty()) {
      ++out.sets;
      int least = 0, most = 0;
      bool barred = false;
      for (int oil : oils) {
        const optimise::OilBounds& bounds = problem.oils[std::size_t(oil)];
        barred = barred || bounds.most < bounds.least;
        least += bounds.least;
        most += bounds.most;
      }
      if (barred || least > problem.steps || most < problem.steps) {
        ++out.sum;
      } else if (const Set set = over(problem, oils); out_of_reach(set)) {
        ++out.out_of_reach;
      } else {
        left.push_back({lower_bound(set, at), oils});
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
  std::stable_sort(left.begin(), left.end(),
                   [](const Candidate& a, const Candidate& b) { return a.bound < b.bound; });
  for (const Candidate& candidate : left) {
    const auto no_better = [&](double value) {
      return value > out.value + kMargin * std::max(1.0, std::abs(out.value));
    };
    if (no_better(candidate.bound)) {
      ++out.bounded;
      continue;
    }
    Set set = over(problem, candidate.oils);
    lower_bound(set, at);
    std::vector<double> x;
    for (int i = 0; i < set.n; ++i)
      x.push_back(
          std::clamp(at[std::size_t(i)], set.low[std::size_t(i)], set.high[std::size_t(i)]));
    ++out.minimised;
    const double least = minimise(set, x);
    if (least == -optimise::kInfinity) ++out.unfit;
    const bool above = no_better(least);
    if (above) ++out.above;
    const double before = out.value;
    Walk(problem, set, candidate.oils, out).run();
    if (above && out.value < before) ++out.misled;
  }
  return out;
}

}  // namespace barwright::testing
