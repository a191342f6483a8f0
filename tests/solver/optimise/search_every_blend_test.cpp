#include <catch2/catch.hpp>
#include <cmath>

#include "solver/optimise/checker.hpp"
#include "solver/optimise/search.hpp"
#include "tests/solver/optimise/outside_enumeration.hpp"

using namespace barwright::optimise;

// Kinks of either sign in limits, goals and pulls, several goals with give, pins, ties: what
// looking at every blend finds, both modes of the search prove.
TEST_CASE("search: agrees with looking at every blend", "[search][outside]") {
  int none = 0;
  for (unsigned long long seed = 1; seed <= 1500; ++seed) {
    const Problem problem = barwright::testing::make_small_problem(seed);
    const barwright::testing::EveryBlend every = barwright::testing::look_at_every_blend(problem);
    none += every.fitting == 0;
    for (const bool plain : {false, true}) {
      SearchOptions options;
      options.plain = plain;
      const Answer answer = search(problem, options);
      INFO("seed " << seed << ", plain " << plain);
      if (every.fitting == 0) {
        REQUIRE(answer.status == Status::infeasible);
        continue;
      }
      REQUIRE(answer.status == Status::optimal);
      REQUIRE(check_steps(problem, answer.steps).empty());
      REQUIRE(answer.goals.size() == every.values.size());
      for (std::size_t g = 0; g < every.values.size(); ++g) {
        const double size = std::max(1.0, std::abs(every.values[g]));
        const bool last = g + 1 == every.values.size();
        const double give = last ? 0 : problem.goals[g].give;
        REQUIRE(answer.goals[g].value >= every.values[g] - 2 * kGap * size);
        REQUIRE(answer.goals[g].value <= every.values[g] + give + 2 * kGap * size);
        REQUIRE(answer.goals[g].bound >= every.values[g] - 2 * kGap * size);
        REQUIRE(answer.goals[g].bound <= every.values[g] + 1e-9 * size);
      }
    }
  }
  CHECK(none > 300);  // both kinds were met
  CHECK(none < 1200);
}

TEST_CASE("search: a goal with a tie is proved to the tie, and gives way from the bound",
          "[search][outside]") {
  int looser = 0;
  for (unsigned long long seed = 1; seed <= 600; ++seed) {
    Problem problem = barwright::testing::make_small_problem(seed);
    if (problem.goals.empty()) continue;
    for (Goal& goal : problem.goals) goal.give = 0;
    const barwright::testing::EveryBlend every = barwright::testing::look_at_every_blend(problem);
    constexpr double kTie = 2;
    problem.goals[0].tie = kTie;
    problem.goals[0].give = seed % 2 ? 3 : 0;
    const Answer answer = search(problem);
    INFO("seed " << seed);
    if (every.fitting == 0) {
      REQUIRE(answer.status == Status::infeasible);
      continue;
    }
    REQUIRE(answer.status == Status::optimal);
    REQUIRE(check_steps(problem, answer.steps).empty());
    const double slack = 1e-6 * std::max(1.0, std::abs(every.values[0]));
    const double most = std::max(kTie, problem.goals[0].give);
    REQUIRE(answer.goals[0].bound <= every.values[0] + slack);
    REQUIRE(answer.goals[0].bound >= every.values[0] - kTie - slack);
    REQUIRE(answer.goals[0].value <= every.values[0] + most + slack);
    looser += answer.goals[0].value > every.values[0] + slack;
    // Whatever the tie let pass, the next goal is no worse for it.
    if (every.values.size() > 1 && problem.goals[0].give >= kTie)
      REQUIRE(answer.goals[1].bound <=
              every.values[1] + 1e-6 * std::max(1.0, std::abs(every.values[1])));
  }
  CHECK(looser > 20);
}
