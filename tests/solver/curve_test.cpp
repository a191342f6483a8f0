#include "solver/curve.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/solver/explain_cases.hpp"

using namespace barwright::solver;
using namespace barwright::solver::cases;

TEST_CASE("cost against softness, by hand") {
  // Oil 0 costs 1, softness 100; oil 1 costs 2, softness 0. Cost 1 + x1, softness 100 - 100 x1: at
  // each of 5 evenly spaced ceilings 100, 75, 50, 25, 0 in tenths: x1 = 0, .3, .5, .8, 1.
  Problem p = plain(2, 10);
  p.goals = {Goal{linear({1, 2}), {}, 0}};
  const Curve c = trade_off(p, linear({100, 0}), 5);
  REQUIRE(c.points.size() == 5);
  CHECK(c.proved);
  const std::vector<double> first{1, 1.3, 1.5, 1.8, 2};
  const std::vector<double> second{100, 70, 50, 20, 0};
  for (std::size_t k = 0; k < 5; ++k) {
    CHECK(c.points[k].first == Approx(first[k]).epsilon(1e-12));
    CHECK(c.points[k].second == Approx(second[k]).margin(1e-9));
    CHECK(c.points[k].new_blend);
  }
  CHECK(trade_off(p, linear({100, 0})).points.size() == 21);
}

TEST_CASE("one blend best at both is one level line, and no blend is said to be none") {
  Problem p = plain(2, 10);
  p.goals = {Goal{linear({1, 2}), {}, 0}};
  const Curve level = trade_off(p, linear({1, 2}), 3);
  REQUIRE(level.points.size() == 3);
  CHECK(level.proved);
  CHECK_FALSE(level.points[2].new_blend);
  p.limits = {at_least({1, 1}, 2, 0)};
  const Curve none = trade_off(p, linear({1, 0}), 3);
  CHECK(none.points.empty());
  CHECK(none.status == Status::infeasible);
  CHECK_THROWS_AS(trade_off(p, linear({1, 0}), 1), std::invalid_argument);
}

TEST_CASE("every point of random curves is the best under its ceiling, by enumeration") {
  Dice dice(12);
  int points = 0;
  for (int round = 0; round < 40; ++round) {
    Problem p = random_problem(dice, 4, 8, 2, 4);
    if (round % 2 == 0) {  // a goal with a curved part
      p.goals[0].pulls.push_back({p.limits[0].form, 4, 0.5});
      if (!p.goals[0].pulls[0].form.is_linear()) p.goals[0].pulls.clear();
    }
    const Form second = linear({static_cast<double>(dice.below(9)), 3, 5, 1});
    const Curve c = trade_off(p, second, 9);
    if (!any_fit(p)) {
      CHECK(c.status == Status::infeasible);
      continue;
    }
    REQUIRE(c.points.size() == 9);
    CHECK(c.proved);
    for (const CurvePoint& point : c.points) {
      double best = kInfinity;
      every_fit(p, [&](std::span<const int> w) {
        const std::vector<double> x = p.shares(w);
        if (second.at(x) <= point.allowed + 1e-8) best = std::min(best, p.goals[0].at(x));
      });
      CHECK(point.first == Approx(best).margin(1e-5));
      CHECK(point.second <= point.allowed + 1e-8);
      CHECK(check_steps(p, point.answer.steps).empty());
      ++points;
    }
  }
  CHECK(points > 100);
}
