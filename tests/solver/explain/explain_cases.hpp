#pragma once

// Small problems and full enumeration, shared by the tests of conflicts, fixes, prices and the
// like.

#include <cstdint>
#include <functional>
#include <random>
#include <span>
#include <vector>

#include "solver/explain/relax_wish.hpp"
#include "solver/optimise/checker.hpp"
#include "solver/optimise/problem.hpp"

namespace barwright::cases {

/// n oils, each 1 step to everything, no limits.
inline optimise::Problem plain(std::size_t n, int steps) {
  optimise::Problem p;
  p.steps = steps;
  p.oils.assign(n, optimise::OilBounds{1, steps, false});
  return p;
}

inline optimise::Form linear(std::vector<double> coefficients) {
  return {0, std::move(coefficients), {}};
}

inline optimise::Limit at_least(std::vector<double> coefficients, double low, int wish) {
  return {linear(std::move(coefficients)), low, optimise::kInfinity, wish};
}

inline optimise::Limit at_most(std::vector<double> coefficients, double high, int wish) {
  return {linear(std::move(coefficients)), -optimise::kInfinity, high, wish};
}

/// Calls f with every way to share out the steps, fitting or not.
inline void every_blend(std::size_t oils, int steps,
                        const std::function<void(std::span<const int>)>& f) {
  std::vector<int> w(oils, 0);
  const std::function<void(std::size_t, int)> place = [&](std::size_t i, int left) {
    if (i + 1 == oils) {
      w[i] = left;
      f(w);
      return;
    }
    for (w[i] = 0; w[i] <= left; ++w[i]) place(i + 1, left - w[i]);
  };
  place(0, steps);
}

/// Calls f with every blend that the checker accepts.
inline void every_fit(const optimise::Problem& p,
                      const std::function<void(std::span<const int>)>& f) {
  every_blend(p.oils.size(), p.steps, [&](std::span<const int> w) {
    if (optimise::check_steps(p, w).empty()) f(w);
  });
}

inline bool any_fit(const optimise::Problem& p) {
  bool found = false;
  every_fit(p, [&](std::span<const int>) { found = true; });
  return found;
}

/// Bits of our own mapping: the standard distributions differ between libraries.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : bits_(seed) {}
  /// 0 .. n - 1
  int below(int n) { return static_cast<int>(bits_() % static_cast<std::uint64_t>(n)); }

 private:
  std::mt19937_64 bits_;
};

/// A random problem with whole coefficients: `wishes` ranges (wish 0, 1, ...) over `oils` oils.
/// About every third range has a floor only, every third a ceiling only; some forms are bent.
inline optimise::Problem random_problem(Dice& dice, std::size_t oils, int steps, int wishes,
                                        int width) {
  optimise::Problem p = plain(oils, steps);
  for (int wish = 0; wish < wishes; ++wish) {
    optimise::Limit limit;
    for (std::size_t i = 0; i < oils; ++i) limit.form.linear.push_back(dice.below(11));
    if (dice.below(5) == 0) {
      optimise::Kink kink{static_cast<double>(1 + dice.below(3)), {}, 0};
      for (std::size_t i = 0; i < oils; ++i) kink.slope.push_back(dice.below(6));
      kink.cap = 1 + dice.below(3);
      limit.form.kinks.push_back(kink);
    }
    const int centre = 2 + dice.below(7);
    const int sides = dice.below(3);
    if (sides != 1) limit.low = centre;
    if (sides != 2) limit.high = centre + (sides == 0 ? width : 0);
    limit.wish = wish;
    p.limits.push_back(limit);
  }
  optimise::Goal goal;
  for (std::size_t i = 0; i < oils; ++i) goal.form.linear.push_back(1 + dice.below(9));
  p.goals.push_back(goal);
  return p;
}

}  // namespace barwright::cases
