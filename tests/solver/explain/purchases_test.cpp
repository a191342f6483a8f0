#include "solver/explain/purchases.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/solver/explain/explain_cases.hpp"

using namespace barwright::explain;
using namespace barwright::optimise;
using namespace barwright::cases;

namespace {

Problem bought(Problem p, const Offer& offer, const std::vector<int>& oils) {
  for (std::size_t i = 0; i < p.oils.size(); ++i) {
    const bool in = std::find(oils.begin(), oils.end(), static_cast<int>(i)) != oils.end();
    if (offer.to_buy[i] && !in) p.oils[i].most = 0;
  }
  return p;
}

}  // namespace

TEST_CASE("the oils that open the way, cheapest pack first") {
  // Hardness 50 or more. On hand: oil 0 (20). Packs: oil 1 (100, 8 EUR), oil 2 (60, 5 EUR, and a
  // pack gives 40 % of the batch at most), oil 3 (70, 6 EUR), oil 4 (100, 9 EUR, a pack gives 20
  // %). Oil 2: 0.6*20 + 0.4*60 = 36, too little; oil 4: 0.8*20 + 0.2*100 = 36, too little.
  Problem p = plain(5, 10);
  p.limits = {at_least({20, 100, 60, 70, 100}, 50, 0)};
  p.oils[2].most = 4;
  p.oils[4].most = 2;
  p.goals = {Goal{linear({1, 4, 3, 2, 4}), {}, 0}};
  const Offer offer{{false, true, true, true, true}, {0, 8, 5, 6, 9}};
  const Purchases one = find_purchases(p, offer);
  REQUIRE(one.found.size() == 2);
  CHECK(one.complete);
  CHECK(one.found[0].oils == std::vector<int>{3});
  CHECK(one.found[0].price == 6);
  // 20 + 50 x3 >= 50: x3 = 0.6, cost 0.4 + 1.2.
  CHECK(one.found[0].answer.steps == std::vector<int>{4, 0, 0, 6, 0});
  CHECK(one.found[0].answer.goals[0].value == Approx(1.6).epsilon(1e-12));
  CHECK(one.found[1].oils == std::vector<int>{1});

  // Neither 2 nor 4 does it alone; together 0.4*60 + 0.2*100 + 0.4*20 = 52.
  const Purchases two = find_purchases(p, offer, {}, {.most = 10, .pairs = true});
  REQUIRE(two.found.size() == 1);
  CHECK(two.found[0].oils == std::vector<int>{2, 4});
  CHECK(two.found[0].price == 14);

  const Purchases cheapest = find_purchases(p, offer, {}, {.most = 1, .pairs = false});
  REQUIRE(cheapest.found.size() == 1);
  CHECK(cheapest.found[0].oils == std::vector<int>{3});
}

TEST_CASE("the cheapest pack is found wherever it stands in the list") {
  Problem p = plain(4, 10);
  p.limits = {at_least({0, 1, 1, 1}, 0.5, 0)};
  const Offer offer{{false, true, true, true}, {0, 8, 9, 6}};
  const Purchases one = find_purchases(p, offer, {}, {.most = 1, .pairs = false});
  REQUIRE(one.found.size() == 1);
  CHECK(one.found[0].oils == std::vector<int>{3});
}

TEST_CASE("that nothing to be bought helps is proved, or said to be open") {
  Problem p = plain(3, 10);
  p.limits = {at_least({1, 2, 3}, 4, 0)};
  const Offer offer{{false, true, true}, {}};
  CHECK(find_purchases(p, offer).none);
  SearchOptions late;
  late.deadline = std::chrono::steady_clock::now() - std::chrono::seconds(1);
  const Purchases open = find_purchases(p, offer, late);
  CHECK_FALSE(open.none);
  CHECK_FALSE(open.complete);
  CHECK_THROWS_AS(find_purchases(p, Offer{{true}, {}}), std::invalid_argument);
}

TEST_CASE("purchases agree with trying every oil and every pair") {
  Dice dice(5150);
  int opened = 0;
  for (int round = 0; round < 140; ++round) {
    Problem p = random_problem(dice, 6, 5, 3, 1);
    Offer offer{{false, false, true, true, true, true}, {0, 0}};
    for (int i = 2; i < 6; ++i) {
      offer.pack_price.push_back(1 + dice.below(4));
      p.oils[static_cast<std::size_t>(i)].most = 1 + dice.below(4);
    }
    if (any_fit(bought(p, offer, {}))) continue;
    std::vector<std::vector<int>> singles;
    std::vector<std::vector<int>> pairs;
    for (int i = 2; i < 6; ++i) {
      if (any_fit(bought(p, offer, {i}))) singles.push_back({i});
    }
    for (int i = 2; i < 6; ++i) {
      for (int j = i + 1; j < 6; ++j) {
        const auto alone = [&](int oil) {
          return std::find(singles.begin(), singles.end(), std::vector<int>{oil}) != singles.end();
        };
        if (!alone(i) && !alone(j) && any_fit(bought(p, offer, {i, j}))) pairs.push_back({i, j});
      }
    }
    for (const bool two : {false, true}) {
      const Purchases got = find_purchases(p, offer, {}, {.most = 99, .pairs = two});
      std::vector<std::vector<int>> sets;
      double last = 0;
      for (const Purchase& buy : got.found) {
        sets.push_back(buy.oils);
        CHECK(check_steps(bought(p, offer, buy.oils), buy.answer.steps).empty());
        CHECK(buy.answer.status == Status::optimal);
        CHECK(last <= buy.price);
        last = buy.price;
      }
      std::sort(sets.begin(), sets.end());
      CHECK(sets == (two ? pairs : singles));
      CHECK(got.complete);
      CHECK(got.none == sets.empty());
      opened += static_cast<int>(sets.size());
    }
  }
  CHECK(opened > 30);
}
