// Guards: concave parts of forms, and the search that keeps them.
#include "solver/optimise/guards.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "solver/optimise/checker.hpp"
#include "solver/optimise/search.hpp"
#include "tests/solver/optimise/instances.hpp"
#include "tests/solver/optimise/outside_enumeration.hpp"

using namespace barwright::optimise;
using barwright::testing::Uniform;

namespace {

std::vector<double> numbers(Uniform& draw, std::size_t count, double from, double to) {
  std::vector<double> out(count);
  for (double& v : out) v = draw(from, to);
  return out;
}

std::vector<double> blend(Uniform& draw, std::size_t oils) {
  auto x = numbers(draw, oils, 0, 1);
  for (double& v : x) v = draw() < 0.4 ? 0 : v;
  const double sum = std::accumulate(x.begin(), x.end(), 0.0);
  if (sum <= 0) return blend(draw, oils);
  for (double& v : x) v /= sum;
  return x;
}

LotReserve make_reserve(Uniform& draw, std::size_t oils) {
  LotReserve out{numbers(draw, oils, 0, 6)};
  if (draw() < 0.5) {
    out.there = blend(draw, oils);
    out.besides = numbers(draw, oils, 0, 0.3);
    out.rest = draw(0, 1);
  }
  return out;
}

Reading make_reading(Uniform& draw, std::size_t oils) {
  auto all = std::make_shared<Readings>();
  const auto count = static_cast<std::size_t>(draw.whole(1, 12));
  all->oils = oils;
  all->there = blend(draw, oils);
  all->above = numbers(draw, count * oils, -8, 8);
  if (draw() < 0.5) {
    all->below = all->above;
    for (double& v : all->below) v += draw(0, 4);
  }
  all->constants = numbers(draw, count, -2, 2);
  return {all, make_reserve(draw, oils), {}};
}

std::shared_ptr<const Concave> make_part(Uniform& draw, std::size_t oils) {
  if (draw() < 0.4) return less_reserve(make_reserve(draw, oils));
  std::vector<Reading> ways;
  ways.push_back(make_reading(draw, oils));
  if (draw() < 0.5) ways.push_back(make_reading(draw, oils));
  return least_reading(std::move(ways), draw(0.5, 0.97));
}

}  // namespace

TEST_CASE("a guard's planes touch it and lie nowhere below it", "[guards]") {
  Uniform draw(11);
  for (int round = 0; round < 200; ++round) {
    const auto oils = static_cast<std::size_t>(draw.whole(2, 7));
    const auto part = make_part(draw, oils);
    const auto x = blend(draw, oils);
    std::vector<double> slope(oils);
    const double at_none = part->plane(x, slope);
    const auto plane = [&](const std::vector<double>& at) {
      return std::inner_product(at.begin(), at.end(), slope.begin(), at_none);
    };
    CHECK(plane(x) == Approx(part->at(x)).margin(1e-9));
    for (const double s : slope) CHECK(std::abs(s) <= part->steepest() + 1e-9);
    const auto [least, most] = std::minmax_element(slope.begin(), slope.end());
    CHECK(*most - *least <= part->widest() + 1e-9);
    for (int other = 0; other < 20; ++other) {
      const auto y = blend(draw, oils);
      REQUIRE(plane(y) >= part->at(y) - 1e-9);
    }
  }
}

TEST_CASE("the least readings are their mean, the last by what is left of the tail", "[guards]") {
  auto all = std::make_shared<Readings>();
  all->oils = 1;
  all->there = {0};
  all->above = {5, 1, 3, 2, 4};
  all->constants = {0, 0, 0, 0, 0};
  const std::vector<double> x = {1};
  const auto tail = [&](double share) { return least_reading({{all, {{0.0}}, {}}}, share)->at(x); };
  CHECK(tail(0.8) == Approx(1));                        // one of five
  CHECK(tail(0.5) == Approx((1 + 2 + 0.5 * 3) / 2.5));  // two and a half of five
  CHECK(tail(0.95) == Approx(1));                       // a quarter of one
  CHECK(tail(0) == Approx(3));                          // all
}

TEST_CASE("a reserve is the root of the squares, about the bar in the hand", "[guards]") {
  const std::vector<double> x = {0.6, 0.4};
  CHECK(less_reserve({{5, 10}})->at(x) == Approx(-5));  // 3 and 4
  CHECK(less_reserve({{5, 10}, {0.6, 0.4}})->at(x) == 0);
  CHECK(less_reserve({{5, 10}, {0, 0.4}, {0, 2}, 6})->at(x) == Approx(-7));  // 3, 2 and 6
}

TEST_CASE("with guards the search finds what looking at every blend finds", "[guards][search]") {
  int with_blend = 0, without = 0;
  for (unsigned long long seed = 1; seed <= 600; ++seed) {
    Problem problem = barwright::testing::make_small_problem(seed);
    Uniform draw(seed * 31 + 5);
    for (Limit& limit : problem.limits) {
      if (limit.low > -kInfinity && draw() < 0.5) {
        limit.high = kInfinity;
      } else {
        limit.low = -kInfinity;
      }
      const double sign = limit.low > -kInfinity ? 1 : -1;
      limit.form.guards.push_back({sign * draw(0.2, 2), make_part(draw, problem.oils.size())});
    }
    for (Goal& goal : problem.goals)
      if (draw() < 0.6)
        goal.form.guards.push_back({-draw(0.2, 2), make_part(draw, problem.oils.size())});
    const auto every = barwright::testing::look_at_every_blend(problem);
    for (const bool plain : {false, true}) {
      SearchOptions options;
      options.plain = plain;
      const Answer answer = search(problem, options);
      INFO("seed " << seed << (plain ? " plain" : ""));
      if (every.fitting == 0) {
        CHECK(answer.status == Status::infeasible);
        ++without;
        continue;
      }
      ++with_blend;
      REQUIRE(answer.status == Status::optimal);
      CHECK(check_steps(problem, answer.steps).empty());
      if (!problem.goals.empty())
        CHECK(answer.goals[0].bound ==
              Approx(every.values[0]).margin(1e-6 * std::max(1.0, std::abs(every.values[0]))));
    }
  }
  CHECK(with_blend > 200);
  CHECK(without > 100);
}

TEST_CASE("a guard on its wrong side is refused", "[guards]") {
  Problem problem;
  problem.steps = 2;
  problem.oils.assign(2, {.least = 1, .most = 2});
  Form form{0, {1, 0}, {}};
  form.guards.push_back({1, less_reserve({{1, 1}})});
  problem.limits.push_back({form, -kInfinity, 1, 0});
  CHECK_THROWS_AS(problem.validate(), std::invalid_argument);
  problem.limits[0] = {form, 0, kInfinity, 0};
  CHECK_NOTHROW(problem.validate());
  problem.goals.push_back({form, {}, 0});
  CHECK_THROWS_AS(problem.validate(), std::invalid_argument);
}
