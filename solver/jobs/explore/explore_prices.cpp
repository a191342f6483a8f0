#include "solver/jobs/explore/explore_prices.hpp"

#include <cmath>

#include "solver/formulate/blend_forms.hpp"

namespace barwright::jobs {
namespace {

// Prices nearer than this are one price, money per kg.
constexpr double kSamePrice = 1e-6;
constexpr int kMostSteps = 40;

// From `start`, the price of `oil` at which `best` breaks even with its last rival.
TurningPrice turning(const optimise::Problem& problem, std::span<const double> prices,
                     std::span<const int> best, int oil, double start,
                     const optimise::SearchOptions& options) {
  TurningPrice out;
  const auto at = static_cast<std::size_t>(oil);
  const auto held = problem.shares(best);
  double price = start;
  for (int step = 0; step < kMostSteps; ++step) {
    std::vector<double> now(prices.begin(), prices.end());
    now[at] = price;
    const optimise::Form form = optimise::weighted_sum(now);
    optimise::Problem asked = problem;
    asked.goals = {optimise::Goal{form, {}, 0}};
    const optimise::Answer answer = optimise::search(asked, options);
    if (answer.steps.empty() || answer.status != optimise::Status::optimal) return out;
    const auto rival = problem.shares(answer.steps);
    const double gain = form.at(held) - form.at(rival);
    const double differs = held[at] - rival[at];
    if (gain <= kSamePrice * std::abs(differs) + 1e-9 || std::abs(differs) < 1e-12) {
      out.proved = true;
      if (!out.next.empty()) out.per_kg = price;
      return out;
    }
    // cost(best) - cost(rival) = gain + differs * (p - price): nothing at
    price -= gain / differs;
    out.next = answer.steps;
  }
  return out;
}

}  // namespace

TurningPrice price_ceiling(const optimise::Problem& problem, std::span<const double> prices,
                           std::span<const int> best, int oil,
                           const optimise::SearchOptions& options) {
  // So dear that any blend with less of it is cheaper.
  double sum = 1;
  for (const double price : prices) sum += price;
  return turning(problem, prices, best, oil, sum * problem.steps, options);
}

TurningPrice price_worth(const optimise::Problem& problem, std::span<const double> prices,
                         std::span<const int> best, int oil,
                         const optimise::SearchOptions& options) {
  return turning(problem, prices, best, oil, 0, options);
}

}  // namespace barwright::jobs
