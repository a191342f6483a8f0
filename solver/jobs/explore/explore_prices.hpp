#pragma once

#include <optional>
#include <span>

#include "solver/optimise/problem.hpp"
#include "solver/optimise/search.hpp"

namespace barwright::jobs {

/// At which price of one oil the cheapest blend changes.
struct TurningPrice {
  std::optional<double> per_kg;  ///< nothing: at no price
  std::vector<int> next;         ///< the blend that takes over
  bool proved = false;
};

/// Returns how far the price of an oil in the cheapest blend `best` may rise before another blend
/// is cheaper. `prices` per kg, one per oil. Each step is a search at the price where the last
/// rival breaks even; the end is proved when no rival is left (Newton's method on a piecewise
/// linear function, hence exact).
TurningPrice price_ceiling(const optimise::Problem& problem, std::span<const double> prices,
                           std::span<const int> best, int oil,
                           const optimise::SearchOptions& options = {});

/// Returns the price below which an oil would come into the cheapest blend, or more of it: what its
/// first kilo is worth. Nothing: not even free of charge.
TurningPrice price_worth(const optimise::Problem& problem, std::span<const double> prices,
                         std::span<const int> best, int oil,
                         const optimise::SearchOptions& options = {});

}  // namespace barwright::jobs
