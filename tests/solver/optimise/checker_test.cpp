#include "solver/optimise/checker.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

using namespace barwright::optimise;

namespace {

// Two oils, steps of 1 %: the first 10 to 60, the second at least 20; 2 a + 4 b between 2.5
// and 3.5.
Problem two_oils() {
  Problem p;
  p.oils = {{10, 60, false}, {20, 100, false}};
  p.limits = {{Form{0, {2, 4}, {}}, 2.5, 3.5, 0}};
  return p;
}

}  // namespace

TEST_CASE("checker: a blend that fits has nothing to say", "[checker]") {
  CHECK(check_steps(two_oils(), std::vector<int>{50, 50}).empty());
  CHECK(check_shares(two_oils(), std::vector<double>{0.5, 0.5}).empty());
  CHECK(check_shares(two_oils(), std::vector<double>{0.512, 0.488}).empty());  // grams on a scale
}

TEST_CASE("checker: each rule of the shares is seen alone", "[checker]") {
  const Problem p = two_oils();
  CHECK(check_steps(p, std::vector<int>{50, 49}).size() == 1);  // adds up to 99
  CHECK(check_steps(p, std::vector<int>{61, 39}).size() == 1);  // above its most
  CHECK(check_steps(p, std::vector<int>{85, 15}).size() >= 2);  // most and least, and the limit
  CHECK(check_steps(p, std::vector<int>{100}).size() == 1);     // one number missing
  Problem one = p;
  one.most_oils = 1;
  CHECK(check_steps(one, std::vector<int>{50, 50}).size() == 1);
  Problem pinned = p;
  pinned.oils[0].must = true;
  pinned.limits.clear();
  CHECK(check_steps(pinned, std::vector<int>{0, 100}).size() == 1);
  CHECK(check_shares(pinned, std::vector<double>{0.0, 1.0}).size() == 1);
}

TEST_CASE("checker: a limit holds up to its tolerance and no further", "[checker]") {
  Problem p = two_oils();
  p.oils = {{1, 100, false}, {1, 100, false}};
  // 2 a + 4 b at (0.5, 0.5) is 3; the tolerance is 1e-9 times the largest coefficient, 4.
  p.limits[0].low = 3 + 3.9e-9;
  CHECK(check_steps(p, std::vector<int>{50, 50}).empty());
  p.limits[0].low = 3 + 4.2e-9;
  const auto violations = check_steps(p, std::vector<int>{50, 50});
  REQUIRE(violations.size() == 1);
  CHECK(violations[0].limit == 0);
  CHECK(violations[0].by == Approx(4.2e-9).epsilon(1e-3));
}

TEST_CASE("checker: kinks count at their smaller piece", "[checker]") {
  Problem p;
  p.oils = {{1, 100, false}, {1, 100, false}};
  // min(10 a, 2) >= 1.5: ten times the share, at most 2.
  p.limits = {{Form{0, {0, 0}, {{1, {10, 0}, 2}}}, 1.5, kInfinity, 0}};
  CHECK(check_steps(p, std::vector<int>{15, 85}).empty());
  CHECK(check_steps(p, std::vector<int>{14, 86}).size() == 1);
  p.limits[0].low = 2.1;
  CHECK(check_steps(p, std::vector<int>{90, 10}).size() == 1);  // the cap
}

TEST_CASE("checker: not a number is never accepted", "[checker]") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK_FALSE(check_shares(two_oils(), std::vector<double>{nan, 0.5}).empty());
  CHECK_FALSE(check_shares(two_oils(), std::vector<double>{nan, nan}).empty());
  CHECK_FALSE(check_shares(two_oils(), std::vector<double>{kInfinity, -kInfinity}).empty());
}
