#include "solver/explain/fixes_give_way.hpp"

#include <algorithm>
#include <cmath>

namespace barwright::explain {
namespace {

/// Guards k / noticeable * noticeable against falling short of k.
constexpr double kWhole = 1e-9;

bool named(std::span<const int> which, int wish) {
  return std::find(which.begin(), which.end(), wish) != which.end();
}

int whole_steps(const Rule& rule, double t) {
  return static_cast<int>(std::min(std::floor(t * rule.noticeable + kWhole), 1e6));
}

optimise::Problem give(const optimise::Problem& problem, const Wishes& all,
                       std::span<const int> which, double t) {
  optimise::Problem looser = without(problem, all, which);
  for (const Measure& m : all.measures) {
    if (named(which, m.wish)) {
      add_range(looser, m, m.low - t * m.noticeable, m.high + t * m.noticeable);
    }
  }
  for (const Rule& rule : all.rules) {
    if (rule.wish < 0 || !named(which, rule.wish)) continue;
    const int by = whole_steps(rule, t);
    switch (rule.kind) {
      case RuleKind::most_oils:
      case RuleKind::oil_most:
        add_rule(looser, rule, rule.bound + by);
        break;
      case RuleKind::oil_least:
        add_rule(looser, rule, std::max(1, rule.bound - by));
        break;
      case RuleKind::oil_must:
        add_rule(looser, rule, 1 - by);
        break;
    }
  }
  return looser;
}

double needed(const optimise::Problem& problem, const Wishes& all, std::span<const int> which,
              std::span<const int> steps) {
  const std::vector<double> x = problem.shares(steps);
  double t = 0;
  for (const Measure& m : all.measures) {
    if (!named(which, m.wish)) continue;
    const double value = m.at(x);
    t = std::max({t, (m.low - value) / m.noticeable, (value - m.high) / m.noticeable});
  }
  for (const Rule& rule : all.rules) {
    if (rule.wish < 0 || !named(which, rule.wish)) continue;
    t = std::max(t, broken_by(problem, rule, steps) / rule.noticeable);
  }
  return t;
}

/// Whether nothing lies strictly between a t that fails and a t that works.
bool adjacent(const Wishes& all, std::span<const int> which, double fails, double works) {
  const bool measured = std::any_of(all.measures.begin(), all.measures.end(),
                                    [&](const Measure& m) { return named(which, m.wish); });
  if (measured && works - fails > kGiveWayGrain) return false;
  return std::all_of(all.rules.begin(), all.rules.end(), [&](const Rule& rule) {
    return rule.wish < 0 || !named(which, rule.wish) ||
           whole_steps(rule, works - kGiveWayGrain) <= whole_steps(rule, fails);
  });
}

}  // namespace

int broken_by(const optimise::Problem&, const Rule& rule, std::span<const int> steps) {
  if (rule.kind == RuleKind::most_oils) {
    const auto used = std::count_if(steps.begin(), steps.end(), [](int w) { return w > 0; });
    return rule.bound == 0 ? 0 : std::max(0, static_cast<int>(used) - rule.bound);
  }
  const int w = steps[static_cast<std::size_t>(rule.oil)];
  if (rule.kind == RuleKind::oil_most) return std::max(0, w - rule.bound);
  if (rule.kind == RuleKind::oil_least) return w == 0 ? 0 : std::max(0, rule.bound - w);
  return w == 0 ? 1 : 0;
}

GiveWay give_way(const optimise::Problem& problem, const Wishes& all, std::span<const int> which,
                 const optimise::SearchOptions& options) {
  GiveWay result;
  const optimise::Answer dropped = any_blend(without(problem, all, which), options);
  result.status = dropped.status;
  if (dropped.steps.empty()) return result;
  result.status = optimise::Status::feasible;
  result.steps = dropped.steps;
  result.by = needed(problem, all, which, dropped.steps);
  double fails = 0;
  for (bool halve = true; !adjacent(all, which, fails, result.by); halve = !halve) {
    // Every other question is the proof itself: is there anything just below?
    const double below = result.by - kGiveWayGrain / 2;
    const double t = halve ? fails + (below - fails) / 2 : below;
    if (out_of_time(options)) return result;
    const optimise::Answer answer = any_blend(give(problem, all, which, t), options);
    if (!answer.steps.empty()) {
      result.steps = answer.steps;
      result.by = std::min(t, needed(problem, all, which, answer.steps));
    } else if (answer.status == optimise::Status::infeasible) {
      fails = t;
    } else {
      return result;
    }
  }
  result.status = optimise::Status::optimal;
  return result;
}

}  // namespace barwright::explain
