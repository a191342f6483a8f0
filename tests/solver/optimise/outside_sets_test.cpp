#include "tests/solver/optimise/outside_sets.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "solver/optimise/search.hpp"
#include "tests/solver/optimise/instances.hpp"

using namespace barwright::optimise;

// Curved goals against an enumeration that shares nothing with the search but the checker: 8 to 10
// oils, at most 2 to 4 of them, equal prices under the cost ceiling, two lots of one oil, half-per-
// cent steps and wishes that cannot be met among them.
TEST_CASE("outside: every set of oils with NLopt in each finds the same curved optimum, 500 times",
          "[outside]") {
  int none = 0, equal_prices = 0;
  for (int k = 0; k < 500; ++k) {
    barwright::testing::InstanceSpec spec;
    spec.seed = std::uint64_t(90000 + k);
    spec.oils = 8 + k % 3;
    spec.most_oils = 2 + k / 3 % 3;
    spec.ranges = 2 + k % 4;
    spec.narrowest = 2;
    spec.widest = 8;
    spec.steps = k % 11 == 0 ? 200 : 100;
    spec.impossible = k % 6 == 5;
    spec.equal_prices = k % 4 == 1;
    spec.duplicates = k % 4 == 2 ? 0.3 : 0;
    spec.wish =
        k % 2 ? barwright::testing::Wish::nearest_in_feel : barwright::testing::Wish::nearest_point;
    const Problem problem = barwright::testing::make_instance(spec);
    const Answer ours = search(problem);
    const barwright::testing::SetsAnswer theirs = barwright::testing::look_at_every_set(problem);
    INFO("seed " << spec.seed);
    REQUIRE(theirs.sum + theirs.out_of_reach + theirs.bounded + theirs.minimised == theirs.sets);
    if (theirs.steps.empty()) {
      REQUIRE(ours.status == Status::infeasible);
      ++none;
      continue;
    }
    equal_prices += spec.equal_prices;
    REQUIRE(ours.status == Status::optimal);
    REQUIRE(std::abs(ours.goals[0].value - theirs.value) <= 1e-6);
  }
  CHECK(none > 40);  // all kinds were met
  CHECK(none < 250);
  CHECK(equal_prices > 60);
}
