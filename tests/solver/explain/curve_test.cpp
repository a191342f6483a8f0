#include "solver/explain/curve.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "solver/optimise/checker.hpp"
#include "solver/optimise/proof.hpp"
#include "tests/solver/explain/explain_cases.hpp"
#include "tests/solver/optimise/instances.hpp"

using namespace barwright::explain;
using namespace barwright::optimise;
using namespace barwright::cases;

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

// What is carried from point to point (starting blends, ends that are level) must not change any of
// them: each is searched for again by itself. In the first of each kind the ranges nearly determine
// the property, so that the curve ends a hair short of its least.
TEST_CASE("every point of curves over real oils is what a search of its own finds") {
  for (int k = 0; k < 8; ++k) {
    const bool feel = k % 2;
    barwright::testing::InstanceSpec spec;
    spec.seed = std::uint64_t(k / 2 == 0 ? 9 : 40 + k);
    spec.oils = 30;
    spec.most_oils = 5;
    const Problem priced = barwright::testing::make_instance(spec);
    Form second = priced.limits[0].form;
    Problem p = priced;
    if (feel) {
      second = priced.goals[0].form;
      spec.wish = barwright::testing::Wish::nearest_in_feel;
      p = barwright::testing::make_instance(spec);
    }
    const Curve curve = trade_off(p, second, 9);
    INFO("seed " << spec.seed << ", feel " << feel);
    REQUIRE(curve.points.size() == 9);
    CHECK(curve.proved);
    double before = kInfinity;
    for (const CurvePoint& point : curve.points) {
      Problem alone = p;
      alone.goals.resize(1);
      alone.limits.push_back({second, -kInfinity, point.allowed, -1});
      CHECK(check_steps(alone, point.answer.steps).empty());
      const Answer answer = search(alone);
      REQUIRE(answer.status == Status::optimal);
      CHECK(std::abs(answer.goals[0].value - point.first) <= 2 * kGap * std::max(1.0, point.first));
      CHECK(point.allowed <= before);
      before = point.allowed;
    }
    Problem least = p;
    least.goals = {Goal{second, {}, 0, 1e-4}};
    const double bound = search(least).goals[0].bound;
    const auto [low, high] = std::minmax_element(second.linear.begin(), second.linear.end());
    CHECK(curve.points.back().allowed <= bound + 1.1e-3 * (*high - *low));
  }
}

TEST_CASE("a curve cut short says of each point what its numbers say, no more and no less") {
  int proved = 0, open = 0;
  for (std::uint64_t seed = 1; seed <= 16; ++seed) {
    barwright::testing::InstanceSpec spec;
    spec.seed = seed;
    spec.oils = 20;
    spec.most_oils = 5;
    const Problem p = barwright::testing::make_instance(spec);
    const Form second = p.limits[0].form;
    for (const std::uint64_t nodes : {2u, 8u, 40u}) {
      SearchOptions options;
      options.most_nodes = nodes;
      const Curve curve = trade_off(p, second, 7, options);
      bool all = curve.points.size() == 7;
      for (const CurvePoint& point : curve.points) {
        const bool said = point.answer.status == Status::optimal;
        REQUIRE_FALSE(point.answer.goals.empty());
        CHECK(said == is_proved(p.goals[0], point.answer.goals[0]));
        all = all && said;
        (said ? proved : open) += 1;
        if (!said) continue;
        Problem alone = p;
        alone.goals.resize(1);
        alone.limits.push_back({second, -kInfinity, point.allowed, -1});
        const Answer answer = search(alone);
        REQUIRE(answer.status == Status::optimal);
        CHECK(point.first - answer.goals[0].value <= 2 * kGap * std::max(1.0, point.first));
      }
      if (curve.proved) CHECK(all);
    }
  }
  CHECK(proved > 20);
  CHECK(open > 20);
}
