// The prices at which the cheapest blend changes, asked again: at the price told, a hair less and a
// hair more, by the search alone.
#include <catch2/catch.hpp>

#include "solver/jobs/explore/explore_prices.hpp"
#include "tests/solver/optimise/instances.hpp"

using namespace barwright::jobs;
using namespace barwright::optimise;

namespace {

constexpr double kHairOfPrice = 1e-3;  // money per kg; a step of 1 % of it is 1e-5 of the cost

struct Asked {
  double cost = 0;   ///< of the blend that was cheapest
  double least = 0;  ///< of the cheapest blend now
};

// With one oil at another price.
Asked at_price(const Problem& problem, const std::vector<int>& best, std::size_t oil,
               double price) {
  Problem moved = problem;
  moved.goals[0].form.linear[oil] = price;
  const Answer answer = search(moved);
  REQUIRE(answer.status == Status::optimal);
  return {moved.goals[0].form.at(problem.shares(best)), answer.goals[0].value};
}

}  // namespace

TEST_CASE("an oil comes in, and goes out, at the price that is told", "[prices]") {
  int claims = 0, turns = 0, never = 0;
  for (std::uint64_t seed = 1; claims < 200; ++seed) {
    REQUIRE(seed < 60);
    barwright::testing::InstanceSpec spec;
    spec.seed = seed * 13 + 2;
    spec.oils = 14;
    spec.ranges = 4;
    spec.cost_ceiling = false;
    const Problem problem = barwright::testing::make_instance(spec);
    const Answer best = search(problem);
    if (best.status != Status::optimal) continue;
    const auto& prices = problem.goals[0].form.linear;
    for (std::size_t oil = 0; oil < problem.oils.size(); ++oil) {
      const bool in = best.steps[oil] > 0;
      const TurningPrice turn = in ? price_ceiling(problem, prices, best.steps, int(oil))
                                   : price_worth(problem, prices, best.steps, int(oil));
      CAPTURE(seed, oil, in, prices[oil], turn.per_kg.value_or(-1));
      REQUIRE(turn.proved);
      ++claims;
      const double better = in ? 1 : -1;  // the way another blend becomes cheaper
      if (!turn.per_kg) {
        ++never;
        const Asked asked = at_price(problem, best.steps, oil, in ? 1e4 : 0);
        CHECK(asked.least >= asked.cost - 1e-6 * std::max(1.0, asked.cost));
        continue;
      }
      ++turns;
      CHECK(better * (*turn.per_kg - prices[oil]) >= -1e-6);
      const Asked past = at_price(problem, best.steps, oil, *turn.per_kg + better * kHairOfPrice);
      CHECK(past.least < past.cost - 1e-6);
      const Asked before = at_price(problem, best.steps, oil, *turn.per_kg - better * kHairOfPrice);
      CHECK(before.least >= before.cost - 1e-6);
    }
  }
  CHECK(turns > 100);
  CHECK(never > 5);
}
