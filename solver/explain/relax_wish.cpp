#include "solver/explain/relax_wish.hpp"

#include <algorithm>
#include <set>

#include "solver/optimise/checker.hpp"

namespace barwright::explain {
namespace {

bool contains(std::span<const int> wishes, int wish) {
  return std::find(wishes.begin(), wishes.end(), wish) != wishes.end();
}

bool same_bound(const Rule& a, const Rule& b) { return a.kind == b.kind && a.oil == b.oil; }

/// The bound when no rule is left to make it.
int loosest(const optimise::Problem& problem, RuleKind kind) {
  if (kind == RuleKind::oil_most) return problem.steps;
  return kind == RuleKind::oil_least ? 1 : 0;
}

int tighter(RuleKind kind, int a, int b) {
  switch (kind) {
    case RuleKind::oil_least:
    case RuleKind::oil_must:
      return std::max(a, b);
    case RuleKind::oil_most:
      return std::min(a, b);
    case RuleKind::most_oils:
      if (a == 0 || b == 0) return std::max(a, b);  // 0 is no limit
      return std::min(a, b);
  }
  return a;
}

void set_bound(optimise::Problem& problem, const Rule& rule, int bound) {
  if (rule.kind == RuleKind::most_oils) {
    problem.most_oils = bound;
    return;
  }
  optimise::OilBounds& oil = problem.oils.at(static_cast<std::size_t>(rule.oil));
  if (rule.kind == RuleKind::oil_least) oil.least = bound;
  if (rule.kind == RuleKind::oil_most) oil.most = bound;
  if (rule.kind == RuleKind::oil_must) oil.must = bound != 0;
}

int current(const optimise::Problem& problem, const Rule& rule) {
  if (rule.kind == RuleKind::most_oils) return problem.most_oils;
  const optimise::OilBounds& oil = problem.oils.at(static_cast<std::size_t>(rule.oil));
  if (rule.kind == RuleKind::oil_least) return oil.least;
  if (rule.kind == RuleKind::oil_most) return oil.most;
  return oil.must ? 1 : 0;
}

int bound_of(const Rule& rule) { return rule.kind == RuleKind::oil_must ? 1 : rule.bound; }

}  // namespace

Measure measure_of(const optimise::Limit& limit, double noticeable) {
  Measure m;
  m.wish = limit.wish;
  m.low = limit.low;
  m.high = limit.high;
  m.noticeable = noticeable;
  m.shifts = true;
  m.form = [form = limit.form](double level) {
    optimise::Form shifted = form;
    shifted.constant -= level;
    return shifted;
  };
  m.at = [form = limit.form](std::span<const double> x) { return form.at(x); };
  return m;
}

Wishes complete(const optimise::Problem& problem, const Wishes& wishes) {
  std::set<int> measured;
  for (const Measure& m : wishes.measures) measured.insert(m.wish);
  Wishes all = wishes;
  for (const optimise::Limit& limit : problem.limits) {
    if (limit.wish >= 0 && !measured.contains(limit.wish))
      all.measures.push_back(measure_of(limit));
  }
  return all;
}

std::vector<int> wish_ids(const optimise::Problem& problem, const Wishes& wishes) {
  std::set<int> ids;
  for (const optimise::Limit& limit : problem.limits) ids.insert(limit.wish);
  for (const Rule& rule : wishes.rules) ids.insert(rule.wish);
  ids.erase(ids.begin(), ids.lower_bound(0));
  return {ids.begin(), ids.end()};
}

optimise::Problem without(const optimise::Problem& problem, const Wishes& wishes,
                          std::span<const int> dropped) {
  optimise::Problem rest = problem;
  std::erase_if(rest.limits, [&](const optimise::Limit& limit) {
    return limit.wish >= 0 && contains(dropped, limit.wish);
  });
  for (const Rule& gone : wishes.rules) {
    if (gone.wish < 0 || !contains(dropped, gone.wish)) continue;
    int bound = loosest(problem, gone.kind);
    for (const Rule& other : wishes.rules) {
      const bool stays = other.wish < 0 || !contains(dropped, other.wish);
      if (stays && same_bound(gone, other)) bound = tighter(gone.kind, bound, bound_of(other));
    }
    set_bound(rest, gone, bound);
  }
  return rest;
}

optimise::Problem with_only(const optimise::Problem& problem, const Wishes& wishes,
                            std::span<const int> kept) {
  std::vector<int> dropped = wish_ids(problem, wishes);
  std::erase_if(dropped, [&](int wish) { return contains(kept, wish); });
  return without(problem, wishes, dropped);
}

void add_range(optimise::Problem& problem, const Measure& measure, double low, double high) {
  if (low == -optimise::kInfinity && high == optimise::kInfinity) return;
  if (measure.shifts) {
    problem.limits.push_back({measure.form(0), low, high, measure.wish});
    return;
  }
  if (low != -optimise::kInfinity)
    problem.limits.push_back({measure.form(low), 0, optimise::kInfinity, measure.wish});
  if (high != optimise::kInfinity)
    problem.limits.push_back({measure.form(high), -optimise::kInfinity, 0, measure.wish});
}

void add_rule(optimise::Problem& problem, const Rule& rule, int bound) {
  if (rule.kind == RuleKind::oil_must) bound = bound > 0 ? 1 : 0;
  set_bound(problem, rule, tighter(rule.kind, current(problem, rule), bound));
}

bool meets(const optimise::Problem& problem, const Wishes& wishes, int wish,
           std::span<const int> steps) {
  return optimise::fits(with_only(problem, wishes, std::span(&wish, 1)), steps);
}

optimise::Answer any_blend(optimise::Problem problem, const optimise::SearchOptions& options) {
  problem.goals.clear();
  return optimise::search(problem, options);
}

bool out_of_time(const optimise::SearchOptions& options) {
  if (options.stop != nullptr && options.stop->load()) return true;
  if (options.allowance != nullptr && options.allowance->used_up()) return true;
  return options.deadline && std::chrono::steady_clock::now() >= *options.deadline;
}

}  // namespace barwright::explain
