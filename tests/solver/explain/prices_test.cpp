#include "solver/explain/prices.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "tests/solver/explain/explain_cases.hpp"

using namespace barwright::explain;
using namespace barwright::optimise;
using namespace barwright::cases;

namespace {

const Price& of(const std::vector<Price>& prices, int wish) {
  return *std::find_if(prices.begin(), prices.end(),
                       [&](const Price& p) { return p.wish == wish; });
}

/// Best first goal with the limits of `p`, by enumeration.
double best_of(const Problem& p) {
  double best = kInfinity;
  every_fit(p, [&](std::span<const int> w) { best = std::min(best, p.goals[0].at(p.shares(w))); });
  return best;
}

/// Two oils in tenths: oil 0 costs 1 and gives no hardness, oil 1 costs 2 and gives 100. Hardness
/// >= 50 (wish 0) takes half of each: cost 1.5. Oil 0 at most 80 % (wish 1, a score in per cent).
Problem half_and_half() {
  Problem p = plain(2, 10);
  p.limits = {at_least({0, 100}, 50, 0), at_most({100, 0}, 80, 1)};
  p.goals = {Goal{linear({1, 2}), {}, 0}};
  return p;
}

Wishes in_tens(const Problem& p) {
  Wishes wishes;
  wishes.measures = {measure_of(p.limits[0], 10), measure_of(p.limits[1], 10)};
  return wishes;
}

}  // namespace

TEST_CASE("what a binding wish costs, how far that holds and what binds next") {
  // One step (10 of hardness) less is one tenth of oil 1 less: 0.1 saved, down to hardness 20,
  // where oil 0 is at its 80 %. One step more costs 0.1, up to 100, where all is oil 1.
  const Problem p = half_and_half();
  const Answer best = search(p);
  const auto prices = find_prices(p, in_tens(p), best);
  REQUIRE(prices.size() == 2);
  const Price& hard = prices[0];  // the dearest first
  CHECK(hard.wish == 0);
  CHECK(hard.binds);
  CHECK(hard.slack == Approx(0).margin(1e-9));
  CHECK(hard.looser.proved);
  CHECK(hard.looser.change == Approx(-0.1).epsilon(1e-9));
  CHECK(hard.looser.holds_to == 20);
  CHECK_FALSE(hard.looser.holds_throughout);
  CHECK(hard.looser.next == std::vector<int>{1});
  CHECK(hard.tighter.change == Approx(0.1).epsilon(1e-9));
  CHECK(hard.tighter.holds_to == 100);
  // The next better blend is one tenth away: hardness 40.
  REQUIRE(hard.better_from);
  CHECK(*hard.better_from == Approx(40).epsilon(1e-12));
  CHECK(hard.better_proved);

  // Oil 0 is at 50 %, 30 below its ceiling: three steps are free, the ceiling does not bind.
  const Price& cap = prices[1];
  CHECK(cap.wish == 1);
  CHECK_FALSE(cap.binds);
  CHECK(cap.slack == Approx(30).epsilon(1e-12));
  CHECK(cap.looser.change == Approx(0).margin(1e-9));
  CHECK(cap.tighter.change == Approx(0).margin(1e-9));
  CHECK(cap.tighter.holds_to == 50);
  CHECK_FALSE(cap.better_from);
  CHECK(cap.better_proved);
}

TEST_CASE("a wish that was tight all along does not bind next") {
  // As above, with a count of at most two oils that both the first and the last blend use up.
  Problem p = half_and_half();
  p.most_oils = 2;
  Wishes wishes = in_tens(p);
  wishes.rules = {{9, RuleKind::most_oils, -1, 2}};
  CHECK(of(find_prices(p, wishes, search(p)), 0).looser.next == std::vector<int>{1});
}

TEST_CASE("a price ends where the wish collides with another") {
  // Ceiling of 70 on hardness (wish 2) besides the floor of 50: tightening by 30 leaves nothing.
  Problem p = half_and_half();
  p.limits.push_back(at_most({0, 100}, 70, 2));
  Wishes wishes = in_tens(p);
  wishes.measures.push_back(measure_of(p.limits[2], 10));
  const auto prices = find_prices(p, wishes, search(p));
  CHECK(of(prices, 0).tighter.holds_to == 70);
  CHECK(of(prices, 0).tighter.next == std::vector<int>{2});
}

TEST_CASE("a stock and a count have prices too") {
  // Oil 0 costs 1, oil 1 costs 2, oil 2 costs 3. Stock of oil 0 is 4 steps (wish 5), at most two
  // oils (wish 6): 0.4 + 1.2 = 1.6. One step more of oil 0 saves 0.1, up to 10 steps; one less
  // costs 0.1. A third oil would save nothing; one oil alone is oil 1: 2.0, 0.4 more.
  Problem p = plain(3, 10);
  p.goals = {Goal{linear({1, 2, 3}), {}, 0}};
  p.oils[0].most = 4;
  p.most_oils = 2;
  Wishes wishes;
  wishes.rules = {{6, RuleKind::most_oils, -1, 2}, {5, RuleKind::oil_most, 0, 4}};
  const auto prices = find_prices(p, wishes, search(p));
  const Price& stock = of(prices, 5);
  CHECK(stock.binds);
  CHECK(stock.looser.change == Approx(-0.1).epsilon(1e-9));
  CHECK(stock.looser.holds_to == 10);
  CHECK(stock.tighter.change == Approx(0.1).epsilon(1e-9));
  CHECK(stock.tighter.holds_to == 0);
  const Price& count = of(prices, 6);
  CHECK_FALSE(count.binds);
  CHECK(count.looser.change == Approx(0).margin(1e-9));
  CHECK(count.tighter.change == Approx(0.4).epsilon(1e-9));
}

TEST_CASE("prices are refused for a blend that is not proved best") {
  const Problem p = half_and_half();
  Answer guess = search(p);
  guess.status = Status::feasible;
  CHECK_THROWS_AS(find_prices(p, {}, guess), std::invalid_argument);
}

TEST_CASE("prices of random problems agree with enumeration") {
  Dice dice(31337);
  int binding = 0;
  for (int round = 0; round < 60; ++round) {
    const Problem p = random_problem(dice, 4, 8, 3, 3);
    const Answer best = search(p);
    if (best.status != Status::optimal) continue;
    const double value = best_of(p);
    for (const Price& price : find_prices(p, {}, best)) {
      const auto limit = static_cast<std::size_t>(price.index);
      const bool floor = price.what == Change::What::floor;
      const auto at = [&](double level) {
        Problem moved = p;
        (floor ? moved.limits[limit].low : moved.limits[limit].high) = level;
        return best_of(moved) - value;
      };
      const double down = floor ? -1 : 1;
      CHECK(price.looser.proved);
      CHECK(price.looser.change == Approx(at(price.level + down)).margin(1e-6));
      CHECK(price.tighter.proved);
      const double more = at(price.level - down);
      if (more == kInfinity) {
        CHECK(price.tighter.change == kInfinity);
      } else {
        CHECK(price.tighter.change == Approx(more).margin(1e-6));
      }
      CHECK(price.binds == (at(price.level + down) < -1e-6));
      binding += price.binds ? 1 : 0;
      // How far it holds: true at the end named, by enumeration of our own.
      const double steps = std::abs(price.looser.holds_to - price.level);
      CHECK(std::abs(at(price.looser.holds_to) - steps * price.looser.change) <=
            std::max(2e-6, 0.1 * std::abs(steps * price.looser.change) + 1e-9));
      // The better blend appears exactly there: not a hair before.
      CHECK(price.better_proved);
      if (price.better_from) {
        CHECK(at(*price.better_from) < 0);
        CHECK(at(*price.better_from - down * 1e-4) >= -1e-9);
      } else {
        CHECK(at(floor ? -kInfinity : kInfinity) >= -1e-9);
      }
    }
  }
  CHECK(binding > 20);
}

TEST_CASE("prices end with their allowance, and what was not proved says so") {
  Dice dice(4711);
  int unproved = 0;
  for (int round = 0; round < 20; ++round) {
    const Problem p = random_problem(dice, 6, 12, 3, 3);
    const Answer best = search(p);
    if (best.status != Status::optimal) continue;
    SearchOptions options;
    const auto whole = find_prices(p, {}, best);
    Allowance allowance{20000, nullptr};
    options.allowance = &allowance;
    const auto some = find_prices(p, {}, best, options);
    CHECK(some.size() <= whole.size());
    for (const Price& price : some) {
      for (const Move* move : {&price.looser, &price.tighter}) unproved += !move->proved;
      const auto same = std::find_if(whole.begin(), whole.end(), [&](const Price& one) {
        return one.index == price.index && one.what == price.what;
      });
      REQUIRE(same != whole.end());
      // Proved is proved, whatever was left.
      if (price.looser.proved) {
        CHECK(price.looser.change == Approx(same->looser.change).margin(1e-6));
      }
      if (price.tighter.proved && std::isfinite(price.tighter.change)) {
        CHECK(price.tighter.change == Approx(same->tighter.change).margin(1e-6));
      }
    }
  }
  CHECK(unproved > 0);
}

TEST_CASE("told prices hold when the question is asked again a hair to either side") {
  // The search alone confirms each claim, over more oils than can be counted through.
  Dice dice(20250);
  int claims = 0, appear = 0;
  for (int round = 0; round < 400 && claims < 200; ++round) {
    const Problem p = random_problem(dice, 9, 20, 4, 4);
    const Answer best = search(p);
    if (best.status != Status::optimal) continue;
    const double value = best.goals[0].value;
    for (const Price& price : find_prices(p, {}, best, {}, {.most_steps = 4})) {
      const auto limit = static_cast<std::size_t>(price.index);
      const bool floor = price.what == Change::What::floor;
      const double down = floor ? -1 : 1;
      // The best first goal with this side at another level; infinite: no blend.
      const auto at = [&](double level) {
        Problem moved = p;
        (floor ? moved.limits[limit].low : moved.limits[limit].high) = level;
        const Answer answer = search(moved);
        REQUIRE((answer.status == Status::optimal || answer.status == Status::infeasible));
        return answer.steps.empty() ? kInfinity : answer.goals[0].value;
      };
      CAPTURE(round, price.wish, floor, price.level);
      ++claims;
      // What one step is worth, and that up to the slack asking more is free and beyond it is not
      // the same blend.
      REQUIRE(price.looser.proved);
      CHECK(at(price.level + down) - value == Approx(price.looser.change).margin(1e-6));
      CHECK(at(price.level - down * (price.slack - 1e-7)) == Approx(value).margin(1e-6));
      Problem beyond = p;
      (floor ? beyond.limits[limit].low : beyond.limits[limit].high) =
          price.level - down * (price.slack + 1e-4);
      CHECK_FALSE(fits(beyond, best.steps));
      // Where a better blend comes in: there, and not a hair before.
      REQUIRE(price.better_proved);
      if (!price.better_from) {
        CHECK(at(floor ? -kInfinity : kInfinity) >= value - 2e-6);
        continue;
      }
      ++appear;
      CHECK(at(*price.better_from + down * 1e-7) < value - 5e-7);
      CHECK(at(*price.better_from - down * 1e-5) >= value - 2e-6);
    }
  }
  CHECK(claims >= 200);
  CHECK(appear > 40);
}
