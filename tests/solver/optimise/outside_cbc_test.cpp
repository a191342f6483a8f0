#include "tests/solver/optimise/outside_cbc.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "solver/optimise/checker.hpp"
#include "solver/optimise/search.hpp"
#include "tests/solver/optimise/instances.hpp"

using namespace barwright::optimise;
using barwright::testing::CbcAnswer;
using barwright::testing::InstanceSpec;

// COIN-OR's branch and cut (CBC 2.10.8, Debian) on the same linear problems, gap 0.
TEST_CASE("outside: CBC finds the same optimum on 500 instances", "[outside]") {
  int none = 0;
  for (int k = 0; k < 500; ++k) {
    InstanceSpec spec;
    spec.seed = std::uint64_t(50000 + k);
    spec.oils = 12 + k % 20;
    spec.most_oils = 3 + k % 3;
    spec.ranges = 4 + k % 3;
    spec.narrowest = k % 5 == 0 ? 0.3 : 1.5;
    spec.widest = k % 5 == 0 ? 1.0 : 4;
    spec.equal_prices = k % 3 == 0;
    spec.duplicates = k % 4 == 0 ? 0.3 : 0;
    spec.impossible = k % 6 == 5;
    spec.soluble_floor = k % 7 == 3;
    const Problem problem = barwright::testing::make_instance(spec);
    const Answer ours = search(problem);
    const CbcAnswer theirs = barwright::testing::solve_with_cbc(problem);
    INFO("seed " << spec.seed);
    if (theirs.said == CbcAnswer::Said::infeasible) {
      REQUIRE(ours.status == Status::infeasible);
      ++none;
      continue;
    }
    REQUIRE(theirs.said == CbcAnswer::Said::optimal);
    REQUIRE(check_steps(problem, theirs.steps).empty());
    REQUIRE(ours.status == Status::optimal);
    REQUIRE(std::abs(ours.goals[0].value - theirs.value) <= 1e-6);
  }
  CHECK(none > 20);
}
