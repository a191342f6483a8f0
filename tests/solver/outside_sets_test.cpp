#include "tests/solver/outside_sets.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "solver/search.hpp"
#include "tests/solver/instances.hpp"

using namespace barwright::solver;

// Curved goals against an enumeration that shares no code with the search.
TEST_CASE("outside: every set of oils with NLopt in each finds the same curved optimum",
          "[outside]") {
  int none = 0;
  for (int k = 0; k < 60; ++k) {
    testing::InstanceSpec spec;
    spec.seed = std::uint64_t(90000 + k);
    spec.oils = 7;
    spec.most_oils = 3;
    spec.ranges = 3;
    spec.narrowest = 3;
    spec.widest = 8;
    spec.impossible = k % 6 == 5;
    spec.wish = k % 2 ? testing::Wish::nearest_in_feel : testing::Wish::nearest_point;
    const Problem problem = testing::make_instance(spec);
    const Answer ours = search(problem);
    const testing::SetsAnswer theirs = testing::look_at_every_set(problem);
    INFO("seed " << spec.seed);
    if (theirs.steps.empty()) {
      REQUIRE(ours.status == Status::infeasible);
      ++none;
      continue;
    }
    REQUIRE(ours.status == Status::optimal);
    REQUIRE(std::abs(ours.goals[0].value - theirs.value) <= 1e-6 * std::max(1.0, theirs.value));
  }
  CHECK(none > 2);
}
