#include "solver/explain/prices.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

#include "solver/explain/conflict.hpp"
#include "solver/explain/fixes_give_way.hpp"
#include "solver/explain/reach.hpp"
#include "solver/optimise/checker.hpp"

namespace barwright::explain {
namespace {

// Which wish binds next is a help, not a proof: it may not take longer than the proof did.
constexpr std::uint64_t kNextNodes = 2000;
constexpr int kNextSearches = 20;

/// One side of one wish that can be moved: k > 0 gives way by k steps, k < 0 asks for more.
struct Knob {
  int wish = -1;
  Change::What what = Change::What::floor;
  std::size_t index = 0;
  double level = 0;
  double step = 1;
  double slack = 0;
  int way = 1;  ///< +1: a higher level gives way (ceilings), -1: a lower one (floors)

  double at(int k) const { return level + way * k * step; }
};

class Pricing {
 public:
  Pricing(const optimise::Problem& problem, const Wishes& wishes, const optimise::Answer& best,
          const optimise::SearchOptions& options, const PriceOptions& how)
      : problem_(problem),
        all_(complete(problem, wishes)),
        best_(best),
        value_(best.goals.at(0).value),
        options_(options),
        how_(how) {
    problem_.goals.resize(1);
    // Only what lies beyond the proved best is a gain: within a goal's tie the value may be better.
    how_.least_gain = std::max(how_.least_gain, problem.goals[0].tie) +
                      std::max(0.0, -above(best.goals[0].bound));
  }

  std::vector<Knob> knobs() const;
  Price price(const Knob& knob);

 private:
  struct Solved {
    optimise::Status status = optimise::Status::undecided;
    double value = optimise::kInfinity;
    std::vector<int> steps;
  };

  optimise::Problem moved(const Knob& knob, double level) const;
  const Solved& solve(const Knob& knob, int k);
  Move follow(const Knob& knob, int direction);
  std::vector<int> start_for(int k) const;
  bool contradicts(const Knob& knob, double level) const;
  /// How far a value lies above the best, on the maker's scale.
  double above(double value) const {
    return problem_.goals[0].placed(value) - problem_.goals[0].placed(value_);
  }
  bool alike(const Solved& s, int k, double first) const;
  std::vector<int> next_after(const Knob& knob, const Solved& end, int k) const;
  std::vector<int> tight(std::span<const int> steps) const;
  void find_better(const Knob& knob, Price& price) const;

  optimise::Problem problem_;
  Wishes all_;
  const optimise::Answer& best_;
  double value_;
  const optimise::SearchOptions& options_;
  PriceOptions how_;
  std::map<int, Solved> solved_;  ///< of the knob at hand
};

// Whether two forms are one and the same, up to a constant that shifts with nothing.
bool same_figure(const optimise::Form& a, const optimise::Form& b) {
  const auto same_kink = [](const optimise::Kink& x, const optimise::Kink& y) {
    return x.weight == y.weight && x.cap == y.cap && x.slope == y.slope;
  };
  return a.guards.empty() && b.guards.empty() && a.constant == b.constant && a.linear == b.linear &&
         std::equal(a.kinks.begin(), a.kinks.end(), b.kinks.begin(), b.kinks.end(), same_kink);
}

bool is_upper(RuleKind kind) { return kind == RuleKind::most_oils || kind == RuleKind::oil_most; }

int least_bound(RuleKind kind) { return kind == RuleKind::oil_most ? 0 : 1; }

double room(const optimise::Problem& problem, const Rule& rule, std::span<const int> steps) {
  if (rule.kind == RuleKind::most_oils) {
    const auto used = std::count_if(steps.begin(), steps.end(), [](int w) { return w > 0; });
    return rule.bound - static_cast<double>(used);
  }
  const int w = steps[static_cast<std::size_t>(rule.oil)];
  if (rule.kind == RuleKind::oil_most) return rule.bound - w;
  return w == 0 ? problem.steps : w - rule.bound;
}

std::vector<Knob> Pricing::knobs() const {
  std::vector<Knob> knobs;
  const std::vector<double> x = problem_.shares(best_.steps);
  for (std::size_t m = 0; m < all_.measures.size(); ++m) {
    const Measure& measure = all_.measures[m];
    if (measure.wish < 0) continue;
    const double value = measure.at(x);
    if (measure.low != -optimise::kInfinity) {
      knobs.push_back({measure.wish, Change::What::floor, m, measure.low, measure.noticeable,
                       std::max(0.0, value - measure.low), -1});
    }
    if (measure.high != optimise::kInfinity) {
      knobs.push_back({measure.wish, Change::What::ceiling, m, measure.high, measure.noticeable,
                       std::max(0.0, measure.high - value), 1});
    }
  }
  for (std::size_t r = 0; r < all_.rules.size(); ++r) {
    const Rule& rule = all_.rules[r];
    // Being in or out has no steps; what dropping it would do is a question of fixes.
    if (rule.wish < 0 || rule.kind == RuleKind::oil_must) continue;
    const double step = std::max(1.0, std::round(rule.noticeable));
    knobs.push_back({rule.wish, Change::What::rule, r, static_cast<double>(rule.bound), step,
                     room(problem_, rule, best_.steps), is_upper(rule.kind) ? 1 : -1});
  }
  std::stable_sort(knobs.begin(), knobs.end(), [](const Knob& a, const Knob& b) {
    return a.slack / a.step < b.slack / b.step;
  });
  return knobs;
}

optimise::Problem Pricing::moved(const Knob& knob, double level) const {
  optimise::Problem p = without(problem_, all_, std::span(&knob.wish, 1));
  for (std::size_t m = 0; m < all_.measures.size(); ++m) {
    const Measure& measure = all_.measures[m];
    if (measure.wish != knob.wish) continue;
    const bool here = m == knob.index;
    add_range(p, measure, here && knob.what == Change::What::floor ? level : measure.low,
              here && knob.what == Change::What::ceiling ? level : measure.high);
  }
  for (std::size_t r = 0; r < all_.rules.size(); ++r) {
    const Rule& rule = all_.rules[r];
    if (rule.wish != knob.wish) continue;
    const bool here = knob.what == Change::What::rule && r == knob.index;
    int bound = here ? static_cast<int>(std::lround(level)) : rule.bound;
    if (rule.kind == RuleKind::oil_must) bound = 1;
    add_rule(p, rule, bound);
  }
  return p;
}

const Pricing::Solved& Pricing::solve(const Knob& knob, int k) {
  const auto known = solved_.find(k);
  if (known != solved_.end()) return known->second;
  Solved s;
  if (knob.what == Change::What::rule && knob.at(k) < least_bound(all_.rules[knob.index].kind)) {
    s.status = k < 0 ? optimise::Status::infeasible
                     : optimise::Status::undecided;  // no oils at all; nothing to give
  } else if (contradicts(knob, knob.at(k))) {
    s.status = optimise::Status::infeasible;
  } else if (!out_of_time(options_)) {
    const optimise::Problem p = moved(knob, knob.at(k));
    // Asking for more cuts blends off and adds none: the best blend stays best while it fits.
    if (k < 0 && optimise::fits(p, best_.steps)) {
      s = {optimise::Status::optimal, value_, best_.steps};
    } else {
      optimise::SearchOptions options = options_;
      options.start = start_for(k);
      const optimise::Answer answer = optimise::search(p, options);
      s.status = answer.status;
      s.steps = answer.steps;
      if (!answer.steps.empty()) s.value = answer.goals.at(0).value;
    }
  }
  return solved_.emplace(k, std::move(s)).first->second;
}

// What fits a wish less given way fits one more given way: the nearest such blend is the best
// known. Where more is asked, the search looks at the start and leaves it if it does not fit.
std::vector<int> Pricing::start_for(int k) const {
  const std::vector<int>* steps = &best_.steps;
  for (const auto& [at, solved] : solved_)
    if (at < k && k > 0 && at > 0 && !solved.steps.empty()) steps = &solved.steps;
  return *steps;
}

// Whether the level lies beyond the other end of the same figure, in this phrase or in another: no
// search need find out that nothing is both.
bool Pricing::contradicts(const Knob& knob, double level) const {
  if (knob.what == Change::What::rule) return false;
  const Measure& moved = all_.measures[knob.index];
  const optimise::Form form = moved.form(0);
  const double slack = 2 * optimise::kTolerance * std::max(form.scale(), std::abs(level));
  return std::any_of(all_.measures.begin(), all_.measures.end(), [&](const Measure& other) {
    const bool beyond =
        knob.what == Change::What::floor ? level > other.high + slack : level < other.low - slack;
    return beyond && (&other == &moved || same_figure(form, other.form(0)));
  });
}

bool Pricing::alike(const Solved& s, int k, double first) const {
  const double predicted = first * k;
  return std::abs(above(s.value) - predicted) <=
         std::max(how_.least_gain, how_.alike * std::abs(predicted));
}

std::vector<int> Pricing::tight(std::span<const int> steps) const {
  std::vector<int> wishes;
  const std::vector<double> x = problem_.shares(steps);
  for (const Measure& m : all_.measures) {
    if (m.wish < 0) continue;
    const double value = m.at(x);
    if (std::min(value - m.low, m.high - value) < m.noticeable) wishes.push_back(m.wish);
  }
  for (const Rule& rule : all_.rules) {
    if (rule.wish < 0 || rule.kind == RuleKind::oil_must) continue;
    if (room(problem_, rule, steps) < 1) wishes.push_back(rule.wish);
  }
  std::sort(wishes.begin(), wishes.end());
  wishes.erase(std::unique(wishes.begin(), wishes.end()), wishes.end());
  return wishes;
}

std::vector<int> Pricing::next_after(const Knob& knob, const Solved& end, int k) const {
  std::vector<int> next;
  std::vector<int> before{knob.wish};
  if (end.steps.empty()) {
    if (end.status != optimise::Status::infeasible || knob.at(k) < 0) return {};
    Wishes restated = all_;
    if (knob.what == Change::What::rule) {
      restated.rules[knob.index].bound = static_cast<int>(std::lround(knob.at(k)));
    }
    optimise::SearchOptions brief = options_;
    brief.most_nodes = kNextNodes;
    next = find_conflict(moved(knob, knob.at(k)), restated, brief,
                         {.most_searches = 0, .most_filtering = kNextSearches})
               .wishes;
  } else {
    next = tight(end.steps);
    for (int wish : tight(best_.steps)) before.push_back(wish);
  }
  std::erase_if(next, [&](int wish) {
    return std::find(before.begin(), before.end(), wish) != before.end();
  });
  return next;
}

Move Pricing::follow(const Knob& knob, int direction) {
  Move move;
  move.holds_to = knob.level;
  const Solved one = solve(knob, direction);
  move.change = one.status == optimise::Status::undecided ? 0 : above(one.value);
  move.proved =
      one.status == optimise::Status::optimal || one.status == optimise::Status::infeasible;
  if (one.steps.empty()) {
    move.next = next_after(knob, one, direction);
    return move;
  }
  int good = 1;
  int bad = 0;
  for (int k = 2; k <= how_.most_steps && bad == 0; k *= 2) {
    (alike(solve(knob, direction * k), k, move.change) ? good : bad) = k;
  }
  while (bad - good > 1) {
    const int k = good + (bad - good) / 2;
    (alike(solve(knob, direction * k), k, move.change) ? good : bad) = k;
  }
  move.holds_to = knob.at(direction * good);
  move.holds_throughout = bad == 0;
  if (bad != 0) move.next = next_after(knob, solve(knob, direction * bad), direction * bad);
  return move;
}

void Pricing::find_better(const Knob& knob, Price& price) const {
  const optimise::Goal& goal = problem_.goals[0];
  if (knob.what == Change::What::rule || !goal.pulls.empty() || out_of_time(options_)) return;
  const Measure& measure = all_.measures[knob.index];
  const bool floor = knob.what == Change::What::floor;
  optimise::Problem better = moved(knob, floor ? -optimise::kInfinity : optimise::kInfinity);
  better.limits.push_back(
      {goal.form, -optimise::kInfinity, goal.moved(value_, -how_.least_gain), -1});
  const Extreme end = extreme(better, measure, floor, options_);
  if (!end.steps.empty()) price.better_from = end.value;
  price.better_proved = end.proved() || end.status == optimise::Status::infeasible;
}

Price Pricing::price(const Knob& knob) {
  solved_.clear();
  Price price;
  price.wish = knob.wish;
  price.what = knob.what;
  price.index = static_cast<int>(knob.index);
  price.level = knob.level;
  price.step = knob.step;
  price.slack = knob.slack;
  price.looser = follow(knob, 1);
  price.tighter = follow(knob, -1);
  price.binds = price.looser.change < -how_.least_gain;
  find_better(knob, price);
  return price;
}

}  // namespace

std::vector<Price> find_prices(const optimise::Problem& problem, const Wishes& wishes,
                               const optimise::Answer& best, const optimise::SearchOptions& options,
                               const PriceOptions& how) {
  if (best.status != optimise::Status::optimal || best.goals.empty() || problem.goals.empty()) {
    throw std::invalid_argument("prices need a blend proved best for a goal");
  }
  Pricing pricing(problem, wishes, best, options, how);
  std::vector<Price> prices;
  for (const Knob& knob : pricing.knobs()) {
    if (out_of_time(options) || knob.slack > how.most_slack * knob.step) break;  // tightest first
    prices.push_back(pricing.price(knob));
  }
  std::stable_sort(prices.begin(), prices.end(), [](const Price& a, const Price& b) {
    return a.looser.change < b.looser.change;
  });
  return prices;
}

}  // namespace barwright::explain
