#include <catch2/catch.hpp>
#include <cmath>

#include "solver/optimise/search.hpp"
#include "tests/solver/optimise/instances.hpp"
#include "tests/solver/optimise/unseen.hpp"

using namespace barwright::optimise;
using barwright::testing::InstanceSpec;
using barwright::testing::Wish;

// Weak duality guards the bounds, but a wrong fixing, cut or warm start would lose blends in
// silence. The second mode has none of them.
TEST_CASE("search: two modes agree on 5,000 instances of real oils", "[search]") {
  int none = 0;
  for (int k = 0; k < 5000; ++k) {
    InstanceSpec spec;
    spec.seed = std::uint64_t(1000 + k);
    spec.oils = 8 + k % 6;
    spec.most_oils = 3 + k % 2;
    spec.ranges = 3 + k % 3;
    spec.narrowest = k % 5 == 0 ? 0.2 : 2;
    spec.widest = k % 5 == 0 ? 0.8 : 8;
    spec.steps = k % 7 == 0 ? 200 : 100;
    spec.equal_prices = k % 3 == 0;
    spec.duplicates = k % 4 == 0 ? 0.3 : 0;
    spec.impossible = k % 6 == 5;
    spec.soluble_floor = k % 8 == 3;
    spec.kinks = k % 8 == 6;
    constexpr Wish kWishes[] = {Wish::cheapest, Wish::nearest_in_feel, Wish::cheapest_then_feel,
                                Wish::nearest_point, Wish::most_of_a_property};
    spec.wish = kWishes[k % 5];
    const Problem problem = barwright::testing::make_instance(spec);
    const Answer fast = search(problem);
    SearchOptions options;
    options.plain = true;
    const Answer plain = search(problem, options);
    INFO("seed " << spec.seed);
    REQUIRE(fast.status == plain.status);
    none += fast.status == Status::infeasible;
    REQUIRE(fast.goals.size() == plain.goals.size());
    // What is told of an earlier goal may differ within its give; what is proved of it may not.
    for (std::size_t g = 0; g < fast.goals.size(); ++g) {
      const double size = std::max(1.0, std::abs(plain.goals[g].value));
      REQUIRE(std::abs(fast.goals[g].bound - plain.goals[g].bound) <= 2 * kGap * size);
    }
    if (!fast.goals.empty())
      REQUIRE(std::abs(fast.goals.back().value - plain.goals.back().value) <=
              2 * kGap * std::max(1.0, std::abs(plain.goals.back().value)));
  }
  CHECK(none > 250);
}

TEST_CASE("search: the same problem gives the same answer again", "[search]") {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    InstanceSpec spec;
    spec.seed = seed;
    spec.oils = 30;
    spec.most_oils = 5;
    spec.wish = seed % 2 ? Wish::cheapest : Wish::nearest_in_feel;
    const Problem problem = barwright::testing::make_instance(spec);
    const Answer a = search(problem), b = search(problem);
    CHECK(a.steps == b.steps);
    CHECK(a.stats.nodes == b.stats.nodes);
    CHECK(a.goals[0].bound == b.goals[0].bound);
  }
}

// The fast mode splits bends before oils, the plain one only at whole points.
TEST_CASE("search: two modes agree where scores with bends are kept from both sides", "[search]") {
  for (int k = 0; k < 1500; ++k) {
    barwright::testing::UnseenSpec spec;
    spec.seed = std::uint64_t(20001 + 2 * k);
    spec.oils = 7 + k % 5;
    spec.most_oils = 3 + k % 2;
    spec.steps = k % 7 == 0 ? 60 : 25;
    spec.ranges = k % 3;
    spec.bent = 1 + k % 3;
    constexpr barwright::testing::Asked kAsked[] = {
        barwright::testing::Asked::cheapest, barwright::testing::Asked::most,
        barwright::testing::Asked::least, barwright::testing::Asked::nearest_point,
        barwright::testing::Asked::nearest_in_feel};
    spec.asked = kAsked[k % 5];
    spec.can_be_met = k % 4 == 0;
    const Problem problem = barwright::testing::make_unseen(spec);
    const Answer fast = search(problem);
    SearchOptions options;
    options.plain = true;
    const Answer plain = search(problem, options);
    INFO("seed " << spec.seed);
    REQUIRE(fast.status == Status::optimal);
    REQUIRE(plain.status == Status::optimal);
    const double size = std::max(1.0, std::abs(plain.goals[0].value));
    REQUIRE(std::abs(fast.goals[0].value - plain.goals[0].value) <=
            std::max(problem.goals[0].tie, 2 * kGap * size));
  }
}

TEST_CASE("search: a bend is settled before the oils, which takes a fraction of the parts",
          "[search]") {
  std::uint64_t nodes = 0;
  for (std::uint64_t seed = 1; seed < 17; seed += 2) {
    barwright::testing::UnseenSpec spec;
    spec.seed = seed;
    const Answer answer = search(barwright::testing::make_unseen(spec));
    REQUIRE(answer.status == Status::optimal);
    nodes += answer.stats.nodes;
  }
  CHECK(nodes < 3000);
}
