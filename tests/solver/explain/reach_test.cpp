#include "solver/explain/reach.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/solver/explain/explain_cases.hpp"

using namespace barwright::explain;
using namespace barwright::optimise;
using namespace barwright::cases;

namespace {

/// a.x / b.x, b positive.
Measure ratio(int wish, std::vector<double> a, std::vector<double> b) {
  Measure m;
  m.wish = wish;
  m.form = [a, b](double level) {
    std::vector<double> c;
    for (std::size_t i = 0; i < a.size(); ++i) c.push_back(a[i] - level * b[i]);
    return linear(c);
  };
  m.at = [a, b](std::span<const double> x) { return linear(a).at(x) / linear(b).at(x); };
  return m;
}

/// The largest s with sum of min(x_k, s * a_k) >= s: piecewise linear in s, so try its corners.
double share_held(const std::vector<double>& a, std::span<const double> x) {
  const auto holds = [&](double s) {
    double sum = 0;
    for (std::size_t k = 0; k < a.size(); ++k) sum += std::min(x[k], s * a[k]);
    return sum - s;
  };
  double low = 0;
  double high = 1;
  for (int i = 0; i < 60; ++i) (holds((low + high) / 2) >= 0 ? low : high) = (low + high) / 2;
  return low;
}

}  // namespace

TEST_CASE("what a score can reach while the other wishes stay") {
  // Score 100 x0 + 20 x1. The other wish keeps x1 >= 0.3, so x0 <= 0.7: 0.7*100 + 0.3*20 = 76.
  // The least is all of oil 1: 20. The wish itself (>= 90) is out of reach.
  Problem p = plain(2, 10);
  p.limits = {at_least({100, 20}, 90, 0), at_least({0, 1}, 0.3, 1)};
  const auto reach = find_reach(p, {});
  REQUIRE(reach.size() == 2);
  CHECK(reach[0].wish == 0);
  CHECK(reach[0].under == Under::rest);
  CHECK(reach[0].most.value == Approx(76).epsilon(1e-12));
  CHECK(reach[0].most.bound >= 76 - 1e-9);
  CHECK(reach[0].most.bound < 76.001);
  CHECK(reach[0].most.proved());
  CHECK(reach[0].most.steps == std::vector<int>{7, 3});
  CHECK(reach[0].least.value == Approx(20).epsilon(1e-12));
  // 100 x0 + 20 x1 >= 90 needs x0 >= 7/8, in tenths 0.9: x1 at most 0.1.
  CHECK(reach[1].most.value == Approx(0.1).epsilon(1e-12));
}

TEST_CASE("when the others collide by themselves what the shelf allows is shown instead") {
  // Wishes 1 and 2 collide whatever becomes of wish 0. Stock keeps oil 0 to 40 %.
  Problem p = plain(2, 10);
  p.oils[0].most = 4;
  p.limits = {at_least({100, 0}, 90, 0), at_least({0, 1}, 0.7, 1), at_most({0, 1}, 0.6, 2)};
  Wishes wishes;
  wishes.rules = {{3, RuleKind::oil_most, 0, 4}};
  const auto reach = find_reach(p, wishes);
  REQUIRE(reach.size() == 3);
  CHECK(reach[0].under == Under::rules);
  CHECK(reach[0].most.value == Approx(40).epsilon(1e-12));

  // Stock of both oils below one half: then even that is dropped.
  p.oils[1].most = 4;
  wishes.rules.push_back({4, RuleKind::oil_most, 1, 4});
  CHECK(find_reach(p, wishes)[0].under == Under::house);
  CHECK(find_reach(p, wishes)[0].most.value == Approx(100).epsilon(1e-12));
}

TEST_CASE("a reach that was not proved says so") {
  Problem p = plain(2, 10);
  p.limits = {at_least({100, 20}, 90, 0)};
  SearchOptions late;
  late.deadline = std::chrono::steady_clock::now() - std::chrono::seconds(1);
  const Extreme end = extreme(p, measure_of(p.limits[0]), true, late);
  CHECK_FALSE(end.proved());
  CHECK(end.status != Status::infeasible);
}

TEST_CASE("the extremes of a ratio") {
  // (2 x0 + 6 x1) / (1 x0 + 2 x1): oil 0 alone 2, oil 1 alone 3; with x1 <= 0.5:
  // (1 + 3) / (0.5 + 1) = 8/3.
  Problem p = plain(2, 10);
  p.oils[1].most = 5;
  const Measure m = ratio(0, {2, 6}, {1, 2});
  CHECK(extreme(p, m, true).value == Approx(8.0 / 3).epsilon(1e-12));
  CHECK(extreme(p, m, true).proved());
  CHECK(extreme(p, m, false).value == Approx(2).epsilon(1e-12));
}

TEST_CASE("extremes agree with enumeration: scores, ratios and a share that limits itself") {
  Dice dice(77);
  for (int round = 0; round < 120; ++round) {
    const Problem p = random_problem(dice, 4, 8, 2, 4);
    std::vector<Measure> measures{measure_of(p.limits[0])};
    std::vector<double> a;
    std::vector<double> b;
    std::vector<double> held;
    for (int i = 0; i < 4; ++i) {
      a.push_back(dice.below(9));
      b.push_back(1 + dice.below(5));
      held.push_back(0.1 + 0.2 * dice.below(4));
    }
    measures.push_back(ratio(0, a, b));
    Measure share;
    share.form = [held](double s) {
      Form f;
      f.constant = -s;
      f.linear.assign(4, 0);
      for (std::size_t k = 0; k < 4; ++k) {
        Kink kink{1, std::vector<double>(4, 0), s * held[k]};
        kink.slope[k] = 1;
        f.kinks.push_back(kink);
      }
      return f;
    };
    share.at = [held](std::span<const double> x) { return share_held(held, x); };
    measures.push_back(share);

    for (std::size_t m = 0; m < measures.size(); ++m) {
      double least = kInfinity;
      double most = -kInfinity;
      every_fit(p, [&](std::span<const int> w) {
        const double value = measures[m].at(p.shares(w));
        least = std::min(least, value);
        most = std::max(most, value);
      });
      const Extreme high = extreme(p, measures[m], true);
      if (most == -kInfinity) {
        CHECK(high.status == Status::infeasible);
        continue;
      }
      CHECK(high.proved());
      CHECK(high.value == Approx(most).margin(1e-7));
      CHECK(check_steps(p, high.steps).empty());
      const Extreme low = extreme(p, measures[m], false);
      CHECK(low.proved());
      CHECK(low.value == Approx(least).margin(1e-7));
    }
  }
}
