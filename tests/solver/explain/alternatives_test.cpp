#include "solver/explain/alternatives.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/solver/explain/explain_cases.hpp"

using namespace barwright::explain;
using namespace barwright::optimise;
using namespace barwright::cases;

TEST_CASE("the share moved is half the sum of the differences") {
  const Problem p = plain(3, 10);
  const std::vector<int> a{5, 5, 0};
  const std::vector<int> b{3, 5, 2};
  CHECK(distance_between(p, a, b) == Approx(0.2).epsilon(1e-12));
  CHECK(distance_between(p, a, a) == 0);
}

TEST_CASE("keeping away lets through exactly the blends that are far enough") {
  Problem p = plain(4, 8);
  p.oils[1].most = 3;  // its bend is never needed: the blend has all of it
  const std::vector<int> from{4, 3, 1, 0};
  for (const double distance : {0.1, 0.125, 0.3, 1.0}) {
    Problem apart = p;
    apart.limits.push_back(keep_away(p, from, distance));
    every_fit(p, [&](std::span<const int> w) {
      CHECK(check_steps(apart, w).empty() == (distance_between(p, from, w) >= distance - 1e-12));
    });
  }
}

TEST_CASE("next best blends, each away from all before it, named for what they lead in") {
  // Costs 1, 2, 3; each step away from oil 0 costs. Best: all oil 0 (cost 1). At least 30 % moved:
  // 70/30/0 (1.3). At least 30 % from both: 40/60/0 costs 1.6 and moves 60 % and 30 %; 70/0/30
  // costs 1.6 too and moves 30 % from each. The tie goes to the larger share of earlier oils.
  Problem p = plain(3, 10);
  p.goals = {Goal{linear({1, 2, 3}), {}, 0}};
  const std::vector<View> views{{linear({1, 2, 3}), false, 0.05}, {linear({0, 0, 100}), true, 5}};
  const Alternatives a = find_alternatives(p, 2, 0.3, views);
  REQUIRE(a.found.size() == 3);
  CHECK(a.proved);
  CHECK(a.found[0].answer.steps == std::vector<int>{10, 0, 0});
  CHECK(a.found[1].answer.steps == std::vector<int>{7, 3, 0});
  CHECK(a.found[1].moved == std::vector<int>{-3, 3, 0});
  CHECK(a.found[2].answer.goals[0].value == Approx(1.6).epsilon(1e-9));
  CHECK(a.found[2].nearest == Approx(0.3).epsilon(1e-12));
  CHECK(a.found[0].best_at == std::vector<int>{0});
  CHECK(a.found[1].best_at.empty());
}

TEST_CASE("when no blend is far enough that is proved and said") {
  Problem p = plain(2, 10);
  p.oils[0] = {4, 6, true};
  p.goals = {Goal{linear({1, 2}), {}, 0}};
  const Alternatives a = find_alternatives(p, 5, 0.2);
  CHECK(a.found.size() == 2);  // 60/40 and 40/60
  CHECK(a.exhausted);
  CHECK(a.proved);
}

TEST_CASE("alternatives of random problems are the best far enough, by enumeration") {
  Dice dice(808);
  int compared = 0;
  for (int round = 0; round < 80; ++round) {
    Problem p = random_problem(dice, 4, 8, 2, 4);
    p.most_oils = 3;
    const double distance = 0.125 * (1 + dice.below(3));
    const Alternatives a = find_alternatives(p, 3, distance);
    CHECK(a.proved);
    for (std::size_t k = 0; k <= a.found.size(); ++k) {
      double best = kInfinity;
      every_fit(p, [&](std::span<const int> w) {
        for (std::size_t j = 0; j < k; ++j) {
          const auto& before = a.found[j].answer.steps;
          if (distance_between(p, before, w) < distance - 1e-12) return;
        }
        best = std::min(best, p.goals[0].at(p.shares(w)));
      });
      if (k < a.found.size()) {
        CHECK(a.found[k].answer.goals[0].value == Approx(best).margin(1e-6));
        if (k > 0) CHECK(a.found[k].nearest >= distance - 1e-12);
        ++compared;
      } else if (k < 4) {
        CHECK(best == kInfinity);
        CHECK(a.exhausted);
      }
    }
  }
  CHECK(compared > 100);
}
