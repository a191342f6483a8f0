#include "solver/explain/fixes.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "solver/explain/conflict.hpp"
#include "solver/explain/fixes_give_way.hpp"
#include "solver/explain/reach.hpp"
#include "solver/optimise/checker.hpp"

namespace barwright::explain {
namespace {

using Indices = std::vector<std::size_t>;

Indices measures_of(const Wishes& all, int wish) {
  Indices found;
  for (std::size_t m = 0; m < all.measures.size(); ++m) {
    if (all.measures[m].wish == wish) found.push_back(m);
  }
  return found;
}

Indices rules_of(const Wishes& all, int wish) {
  Indices found;
  for (std::size_t r = 0; r < all.rules.size(); ++r) {
    if (all.rules[r].wish == wish) found.push_back(r);
  }
  return found;
}

enum class Outcome { opened, no_way, undecided };

struct Try {
  Outcome outcome = Outcome::undecided;
  Fix fix;
};

/// The value nearest to one side of the range, the other side kept.
Try move_side(const optimise::Problem& rest, const Measure& measure, std::size_t index, bool floor,
              const optimise::SearchOptions& options) {
  optimise::Problem half = rest;
  add_range(half, measure, floor ? -optimise::kInfinity : measure.low,
            floor ? measure.high : optimise::kInfinity);
  const Extreme end = extreme(half, measure, floor, options);
  Try result;
  if (end.steps.empty()) {
    result.outcome =
        end.status == optimise::Status::infeasible ? Outcome::no_way : Outcome::undecided;
    return result;
  }
  const double from = floor ? measure.low : measure.high;
  result.outcome = Outcome::opened;
  result.fix.wishes = {measure.wish};
  result.fix.changes = {{measure.wish, floor ? Change::What::floor : Change::What::ceiling,
                         static_cast<int>(index), from, end.value}};
  result.fix.size = std::abs(end.value - from) / measure.noticeable;
  result.fix.proved = end.proved();
  result.fix.steps = end.steps;
  return result;
}

Try move_measure(const optimise::Problem& rest, const Measure& measure, std::size_t index,
                 const optimise::SearchOptions& options) {
  std::vector<Try> tries;
  if (measure.low != -optimise::kInfinity)
    tries.push_back(move_side(rest, measure, index, true, options));
  if (measure.high != optimise::kInfinity)
    tries.push_back(move_side(rest, measure, index, false, options));
  Try best;
  best.outcome = Outcome::no_way;
  bool all_known = true;
  for (Try& t : tries) {
    all_known = all_known && (t.outcome == Outcome::no_way || t.fix.proved);
    const bool opened = t.outcome == Outcome::opened;
    if (opened && (best.outcome != Outcome::opened || t.fix.size < best.fix.size)) {
      best = std::move(t);
    } else if (t.outcome == Outcome::undecided && best.outcome == Outcome::no_way) {
      best.outcome = Outcome::undecided;
    }
  }
  best.fix.proved = all_known;
  return best;
}

Try move_together(const optimise::Problem& problem, const Wishes& all, std::span<const int> which,
                  const optimise::SearchOptions& options) {
  const GiveWay found = give_way(problem, all, which, options);
  Try result;
  if (found.steps.empty()) {
    result.outcome =
        found.status == optimise::Status::infeasible ? Outcome::no_way : Outcome::undecided;
    return result;
  }
  result.outcome = Outcome::opened;
  result.fix.wishes.assign(which.begin(), which.end());
  result.fix.size = found.by;
  result.fix.proved = found.status == optimise::Status::optimal;
  result.fix.steps = found.steps;
  for (int wish : which) {
    for (std::size_t m : measures_of(all, wish)) {
      const Measure& measure = all.measures[m];
      const double value = measure.at(problem.shares(found.steps));
      const double slack = optimise::kTolerance * measure.noticeable;
      const int index = static_cast<int>(m);
      if (value < measure.low - slack) {
        result.fix.changes.push_back({wish, Change::What::floor, index, measure.low, value});
      } else if (value > measure.high + slack) {
        result.fix.changes.push_back({wish, Change::What::ceiling, index, measure.high, value});
      }
    }
    for (std::size_t r : rules_of(all, wish)) {
      const Rule& rule = all.rules[r];
      const int excess = broken_by(problem, rule, found.steps);
      if (excess == 0) continue;
      const bool up = rule.kind == RuleKind::oil_most || rule.kind == RuleKind::most_oils;
      const int from = rule.kind == RuleKind::oil_must ? 1 : rule.bound;
      result.fix.changes.push_back({wish, Change::What::rule, static_cast<int>(r),
                                    static_cast<double>(from),
                                    static_cast<double>(up ? from + excess : from - excess)});
    }
  }
  return result;
}

/// Whether the wish does nothing but cap or bar several oils.
bool caps_several(const Wishes& all, int wish) {
  const Indices rules = rules_of(all, wish);
  return rules.size() > 1 && measures_of(all, wish).empty() &&
         std::all_of(rules.begin(), rules.end(),
                     [&](std::size_t r) { return all.rules[r].kind == RuleKind::oil_most; });
}

/// Lets in one capped oil at a time, the others as they were.
std::vector<Try> let_in_one(const optimise::Problem& problem, const Wishes& all, int wish,
                            const optimise::SearchOptions& options) {
  const std::vector<int> ids = wish_ids(problem, all);
  const int alone = ids.back() + 1;
  std::vector<Try> tries;
  for (std::size_t r : rules_of(all, wish)) {
    Wishes split = all;
    split.rules[r].wish = alone;
    Try t = move_together(problem, split, std::span(&alone, 1), options);
    t.fix.wishes = {wish};
    for (Change& c : t.fix.changes) c.wish = wish;
    tries.push_back(std::move(t));
  }
  return tries;
}

std::vector<Try> try_one(const optimise::Problem& problem, const Wishes& all, int wish,
                         const optimise::SearchOptions& options) {
  const Indices measures = measures_of(all, wish);
  const optimise::Problem rest = without(problem, all, std::span(&wish, 1));
  if (measures.size() == 1 && rules_of(all, wish).empty()) {
    return {move_measure(rest, all.measures[measures[0]], measures[0], options)};
  }
  if (caps_several(all, wish)) {
    std::vector<Try> tries = let_in_one(problem, all, wish, options);
    std::erase_if(tries, [](const Try& t) { return t.outcome != Outcome::opened; });
    if (!tries.empty()) return tries;
  }
  return {move_together(problem, all, std::span(&wish, 1), options)};
}

/// Nothing is handed out that the checker refuses once the change is made.
void prove_open(const optimise::Problem& problem, const Wishes& wishes, const Fix& fix) {
  const auto violations = optimise::check_steps(with_fix(problem, wishes, fix), fix.steps);
  if (!violations.empty()) {
    throw std::logic_error("a fix does not open the way: " + violations[0].what);
  }
}

}  // namespace

Fixes find_fixes(const optimise::Problem& problem, const Wishes& wishes, std::span<const int> which,
                 const optimise::SearchOptions& options) {
  const Wishes all = complete(problem, wishes);
  Fixes found;
  for (int wish : which) {
    for (Try& result : try_one(problem, all, wish, options)) {
      if (result.outcome == Outcome::no_way) found.no_way.push_back(wish);
      if (result.outcome == Outcome::undecided) found.undecided.push_back(wish);
      if (result.outcome != Outcome::opened) continue;
      prove_open(problem, wishes, result.fix);
      found.fixes.push_back(std::move(result.fix));
    }
  }
  std::stable_sort(found.fixes.begin(), found.fixes.end(),
                   [](const Fix& a, const Fix& b) { return a.size < b.size; });
  return found;
}

Fix joint_fix(const optimise::Problem& problem, const Wishes& wishes, std::span<const int> which,
              const optimise::SearchOptions& options) {
  Try result = move_together(problem, complete(problem, wishes), which, options);
  if (result.outcome == Outcome::opened) {
    prove_open(problem, wishes, result.fix);
  } else {
    result.fix.wishes.assign(which.begin(), which.end());
    result.fix.proved = result.outcome == Outcome::no_way;
  }
  return result.fix;
}

WayOut fewest_to_drop(const optimise::Problem& problem, const Wishes& wishes,
                      const optimise::SearchOptions& options) {
  std::vector<std::vector<int>> conflicts;
  const std::size_t count = wish_ids(problem, wishes).size();
  while (!out_of_time(options)) {
    const auto drop = hitting_set(conflicts, count);
    if (!drop) break;
    const optimise::Problem rest = without(problem, wishes, *drop);
    Wishes left = wishes;
    std::erase_if(left.rules, [&](const Rule& rule) {
      return rule.wish >= 0 && std::find(drop->begin(), drop->end(), rule.wish) != drop->end();
    });
    const optimise::Answer answer = any_blend(rest, options);
    if (!answer.steps.empty()) {
      WayOut way{*drop, true};
      std::sort(way.wishes.begin(), way.wishes.end());
      return way;
    }
    if (answer.status != optimise::Status::infeasible) break;
    const Conflict next = find_conflict(rest, left, options, {.most_searches = 0});
    if (!next.proved) break;
    if (next.wishes.empty()) return {{}, true};
    conflicts.push_back(next.wishes);
  }
  return {};
}

optimise::Problem with_fix(const optimise::Problem& problem, const Wishes& wishes, const Fix& fix) {
  const Wishes all = complete(problem, wishes);
  optimise::Problem moved = without(problem, all, fix.wishes);
  for (int wish : fix.wishes) {
    for (std::size_t m : measures_of(all, wish)) {
      double low = all.measures[m].low;
      double high = all.measures[m].high;
      for (const Change& c : fix.changes) {
        if (c.what == Change::What::rule || c.index != static_cast<int>(m)) continue;
        (c.what == Change::What::floor ? low : high) = c.to;
      }
      add_range(moved, all.measures[m], low, high);
    }
    for (std::size_t r : rules_of(all, wish)) {
      int bound = all.rules[r].kind == RuleKind::oil_must ? 1 : all.rules[r].bound;
      for (const Change& c : fix.changes) {
        if (c.what == Change::What::rule && c.index == static_cast<int>(r)) {
          bound = static_cast<int>(std::lround(c.to));
        }
      }
      add_rule(moved, all.rules[r], bound);
    }
  }
  return moved;
}

}  // namespace barwright::explain
