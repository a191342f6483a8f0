#pragma once

// Inside a chosen set of oils the dimension is small and a curved goal is smooth: NLopt's SLSQP
// (Kraft 1988; recalled) finds its best point in microseconds. What it returns is a suggestion: its
// return code is not read, the checker judges the shares, and the goal is evaluated anew.

#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "solver/optimise/problem.hpp"

namespace barwright::optimise {

/// What a minimiser is given: smooth pieces over the shares of the set, all with gradients.
struct PolishTask {
  std::vector<double> low, high;  ///< per oil of the set, shares
  /// Value, and gradient where the span is not empty, of the goal at x (shares of the set).
  std::function<double(std::span<const double> x, std::span<double> gradient)> goal;
  /// Wanted <= 0, the same way.
  std::vector<std::function<double(std::span<const double>, std::span<double>)>> limits;
};

/// Improves x in place. Whatever it leaves there is judged by the caller.
using Minimiser = std::function<void(const PolishTask& task, std::vector<double>& x)>;

/// NLopt's SLSQP, at most 200 evaluations.
void minimise_with_nlopt(const PolishTask& task, std::vector<double>& x);

/// Returns shares (one per candidate, only those of `oils` above 0) that the checker accepts and
/// whose goal is no worse than at `start`, or nothing. start: shares that fit, 0 outside `oils`.
std::optional<std::vector<double>> polish(const Problem& problem, const Goal& goal,
                                          std::span<const int> oils, std::span<const double> start,
                                          const Minimiser& minimise = minimise_with_nlopt);

/// Returns whole steps near the shares: rounded to the sum, then single steps moved between the
/// oils in use as long as that lowers the goal. Every candidate is asked of `accept`; empty: none
/// was accepted.
std::vector<int> to_steps(const Problem& problem, const Goal& goal, std::span<const double> shares,
                          const std::function<bool(std::span<const int>)>& accept);

}  // namespace barwright::optimise
