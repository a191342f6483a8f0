#include "solver/search.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "solver/checker.hpp"

namespace barwright::solver {
namespace {

struct Range {
  double low = 0, high = 0;
};

/// Depth first over the steps of one oil after another, with interval bounds on what the rest can
/// add.
class Walk {
 public:
  Walk(const Problem& problem, const SearchOptions& options) : p_(problem), o_(options) {
    w_.assign(p_.oils.size(), 0);
  }

  Answer run() {
    Answer answer;
    if (p_.goals.empty())
      goals_.push_back(Goal{Form{0, std::vector<double>(w_.size(), 0.0), {}}, {}, 0});
    goals_.insert(goals_.end(), p_.goals.begin(), p_.goals.end());
    for (goal_ = 0; goal_ < goals_.size(); ++goal_) {
      best_value_ = best_.empty() ? kInfinity : goals_[goal_].at(p_.shares(best_));
      walk(0, p_.steps, p_.most_oils > 0 ? p_.most_oils : int(w_.size()));
      if (best_.empty()) break;
      ceilings_.push_back(best_value_ + goals_[goal_].give +
                          kGap * std::max(1.0, std::abs(best_value_)));
      if (!p_.goals.empty())
        answer.goals.push_back({best_value_, stopped_ ? -kInfinity : best_value_});
      if (stopped_) break;
    }
    answer.steps = best_;
    answer.stats.nodes = nodes_;
    answer.status = best_.empty() ? (stopped_ ? Status::undecided : Status::infeasible)
                                  : (stopped_ ? Status::feasible : Status::optimal);
    answer.reason =
        stopped_ ? "stopped before the proof was complete" : "every blend was considered";
    return answer;
  }

 private:
  Range reach(const std::vector<double>& a, std::size_t from, int left, double constant) const {
    Range r{constant, constant};
    for (std::size_t i = 0; i < from; ++i) r.low += a[i] * w_[i] / p_.steps;
    r.high = r.low;
    if (left == 0 || from >= a.size()) return r;
    const auto [lo, hi] = std::minmax_element(a.begin() + long(from), a.end());
    r.low += *lo * left / p_.steps;
    r.high += *hi * left / p_.steps;
    return r;
  }
  Range reach(const Form& f, std::size_t from, int left) const {
    Range r = reach(f.linear, from, left, f.constant);
    for (const Kink& k : f.kinks) {
      Range s = reach(k.slope, from, left, 0);
      const double a = k.weight * std::min(s.low, k.cap), b = k.weight * std::min(s.high, k.cap);
      r.low += std::min(a, b);
      r.high += std::max(a, b);
    }
    return r;
  }
  double least(const Goal& g, std::size_t from, int left) const {
    double value = reach(g.form, from, left).low;
    for (const Pull& pull : g.pulls) {
      const Range r = reach(pull.form, from, left);
      const double miss = std::max({0.0, r.low - pull.point, pull.point - r.high});
      value += pull.weight * miss * miss;
    }
    return value;
  }
  bool hopeless(std::size_t from, int left) const {
    for (const Limit& limit : p_.limits) {
      const Range r = reach(limit.form, from, left);
      const double slack = 2 * kTolerance * limit.form.scale();
      if (r.low > limit.high + slack || r.high < limit.low - slack) return true;
    }
    for (std::size_t g = 0; g < goal_; ++g)
      if (least(goals_[g], from, left) > ceilings_[g]) return true;
    return least(goals_[goal_], from, left) >=
           best_value_ - kGap * std::max(1.0, std::abs(best_value_));
  }
  void walk(std::size_t i, int left, int oils_left) {
    if ((++nodes_ & 255) == 0 && ((o_.stop && o_.stop->load()) ||
                                  (o_.deadline && std::chrono::steady_clock::now() > *o_.deadline)))
      stopped_ = true;
    if (stopped_ || hopeless(i, left)) return;
    if (i == w_.size()) {
      if (left != 0 || !check_steps(p_, w_).empty()) return;
      const auto x = p_.shares(w_);
      for (std::size_t g = 0; g < goal_; ++g)
        if (goals_[g].at(x) > ceilings_[g]) return;
      best_ = w_;
      best_value_ = goals_[goal_].at(x);
      return;
    }
    const OilBounds& oil = p_.oils[i];
    if (oils_left > 0)
      for (int v = std::min(left, oil.most); v >= oil.least; --v) {
        w_[i] = v;
        walk(i + 1, left - v, oils_left - 1);
      }
    w_[i] = 0;
    if (!oil.must) walk(i + 1, left, oils_left);
  }

  const Problem& p_;
  const SearchOptions& o_;
  std::vector<Goal> goals_;
  std::vector<double> ceilings_;
  std::size_t goal_ = 0;
  std::vector<int> w_, best_;
  double best_value_ = kInfinity;
  std::uint64_t nodes_ = 0;
  bool stopped_ = false;
};

}  // namespace

Answer search(const Problem& problem, const SearchOptions& options) {
  problem.validate();
  return Walk(problem, options).run();
}

}  // namespace barwright::solver
