#include "solver/jobs/buying/buying_plan.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <random>

#include "solver/jobs/explore/explore_prices.hpp"
#include "solver/optimise/checker.hpp"
#include "solver/optimise/guards.hpp"
#include "solver/optimise/relaxed.hpp"

using namespace barwright;
using namespace barwright::jobs;
using namespace barwright::optimise;

namespace {

struct Random {
  std::mt19937_64 bits;
  double unit() { return static_cast<double>(bits() >> 11) * 0x1.0p-53; }
  int below(int n) { return static_cast<int>(unit() * n); }
};

// Two bars over four oils in steps of a fifth, a floor on one property each; small enough to count.
BuyingQuestion small(Random& dice) {
  BuyingQuestion out;
  for (int b = 0; b < 2; ++b) {
    PlannedBar bar;
    bar.problem.steps = 5;
    bar.problem.oils.assign(4, {.least = 1, .most = 5});
    Limit limit;
    for (int i = 0; i < 4; ++i) limit.form.linear.push_back(10 * dice.unit());
    limit.low = 4 + 3 * dice.unit();
    bar.problem.limits.push_back(limit);
    bar.oil_grams = 1000 + 500 * dice.below(3);
    out.bars.push_back(bar);
  }
  for (int i = 0; i < 4; ++i) {
    out.stock_grams.push_back(dice.below(2) == 0 ? 0 : 300 + 300.0 * dice.below(3));
    out.packs.emplace_back();
    oils::PricedPack pack;
    pack.grams = 500 + 500 * dice.below(2);
    pack.price = 3 + dice.below(10);
    out.packs.back().push_back(pack);
    if (dice.below(2) == 0) {  // and a larger one
      pack.grams *= 2;
      pack.price += 1 + dice.below(8);
      out.packs.back().push_back(pack);
    }
    out.worth_per_kg.push_back(5);
  }
  out.most_oils = 2 + dice.below(3);
  out.most_new = dice.below(3);
  out.delivery = {4, 18};
  return out;
}

// What lots of the oils may take from each bar's floor, and, against a bar in the hand, from its
// difference: as wishes kept for likely lots carry them.
void make_sure(BuyingQuestion& question, Random& dice) {
  for (auto& bar : question.bars) {
    Form& form = bar.problem.limits[0].form;
    std::vector<double> sizes, there = {0.2, 0, 0.8, 0};
    for (int i = 0; i < 4; ++i) sizes.push_back(3 * dice.unit());
    if (dice.below(2) == 0) {
      form.guards.push_back({0.5 + dice.unit(), less_reserve({sizes})});
      continue;
    }
    auto all = std::make_shared<Readings>();
    all->oils = 4;
    all->there = there;
    for (int r = 0; r < 5; ++r) {
      for (int i = 0; i < 4; ++i) all->above.push_back(4 * dice.unit() - 2);
      all->constants.push_back(dice.unit() - 0.5);
    }
    form.guards.push_back({1, least_reading({{all, {sizes, there}, {}}}, 0.7)});
  }
}

constexpr int kMostMoney = 120;  // all prices are whole, and no plan of these costs more
using Sums = std::vector<char>;  // which whole sums of goods can be paid

// The sums that packs of one oil, `missing` grams or more, can cost.
Sums sums_of(const std::vector<oils::PricedPack>& packs, double missing) {
  Sums out(kMostMoney, 0);
  std::vector<std::pair<double, int>> open = {{0, 0}};
  for (std::size_t at = 0; at < open.size(); ++at) {
    const auto [grams, money] = open[at];
    if (grams >= missing - 1e-6) out[std::size_t(money)] = 1;
    for (const auto& pack : packs) {
      const int next = money + int(pack.price);
      if (next < kMostMoney) open.emplace_back(grams + pack.grams, next);
    }
    std::sort(open.begin() + std::ptrdiff_t(at) + 1, open.end());
    open.erase(std::unique(open.begin() + std::ptrdiff_t(at) + 1, open.end()), open.end());
  }
  return out;
}

Sums together(const Sums& a, const Sums& b) {
  Sums out(kMostMoney, 0);
  for (std::size_t i = 0; i < a.size(); ++i)
    for (std::size_t k = 0; a[i] && i + k < b.size(); ++k) out[i + k] |= b[k];
  return out;
}

// Every blend of both bars, each with every purchase that makes it: also packs that nobody needs,
// bought to free the delivery.
double counted(const BuyingQuestion& q) {
  double best = kInfinity;
  std::vector<std::vector<int>> blends;
  for (int a = 0; a <= 5; ++a)
    for (int b = 0; a + b <= 5; ++b)
      for (int c = 0; a + b + c <= 5; ++c) blends.push_back({a, b, c, 5 - a - b - c});
  const auto fits = [&](const PlannedBar& bar, const std::vector<int>& w) {
    const auto x = bar.problem.shares(w);
    const auto& limit = bar.problem.limits[0];
    return limit.form.at(x) >= limit.low - kTolerance * limit.form.scale();
  };
  std::vector<std::map<double, Sums>> known(4);
  for (const auto& one : blends) {
    if (!fits(q.bars[0], one)) continue;
    for (const auto& two : blends) {
      if (!fits(q.bars[1], two)) continue;
      int used = 0, fresh = 0;
      std::vector<double> missing(4, 0);
      for (std::size_t i = 0; i < 4; ++i) {
        const double need = q.bars[0].oil_grams * one[i] / 5 + q.bars[1].oil_grams * two[i] / 5;
        missing[i] = std::max(0.0, need - q.stock_grams[i]);
        if (one[i] + two[i] == 0) continue;
        ++used;
        fresh += q.stock_grams[i] <= 0;
      }
      if (used > q.most_oils || fresh > q.most_new) continue;
      Sums all(kMostMoney, 0);
      all[0] = 1;
      for (std::size_t i = 0; i < 4; ++i) {
        auto& sums = known[i][missing[i]];
        if (sums.empty()) sums = sums_of(q.packs[i], missing[i]);
        all = together(all, sums);
      }
      for (std::size_t goods = 0; goods < all.size(); ++goods) {
        if (all[goods]) best = std::min(best, double(goods) + q.delivery.of(double(goods)));
      }
    }
  }
  return best;
}

}  // namespace

TEST_CASE("the least cash out is what counting every blend and purchase finds", "[buying]") {
  Random dice{std::mt19937_64(7)};
  int found = 0, none = 0, freed = 0;
  for (int round = 0; round < 120; ++round) {
    BuyingQuestion question = small(dice);
    if (round % 3 == 0) question.delivery.free_over = kInfinity;
    const double expected = counted(question);
    const BuyingPlan plan = plan_buying(question);
    CAPTURE(round, expected);
    CHECK(plan.proved());
    CHECK(plan.found == std::isfinite(expected));
    if (plan.found) CHECK(plan.cash() == Approx(expected).margin(1e-9));
    (plan.found ? found : none) += 1;
    freed += plan.found && plan.goods > 0 && plan.delivery == 0;
  }
  CHECK(found > 40);
  CHECK(none > 6);
  CHECK(freed > 6);
}

TEST_CASE("a plan keeps what is sure: counting finds the same least cash", "[buying][guards]") {
  Random dice{std::mt19937_64(19)};
  int found = 0, none = 0, dearer = 0;
  for (int round = 0; round < 80; ++round) {
    BuyingQuestion question = small(dice);
    const double typical = counted(question);
    make_sure(question, dice);
    const double expected = counted(question);
    const BuyingPlan plan = plan_buying(question);
    CAPTURE(round, expected);
    CHECK(plan.proved());
    REQUIRE(plan.found == std::isfinite(expected));
    (plan.found ? found : none) += 1;
    dearer += expected > typical + 0.5 && std::isfinite(expected);
    if (!plan.found) continue;
    CHECK(plan.cash() == Approx(expected).margin(1e-9));
    for (std::size_t b = 0; b < question.bars.size(); ++b)
      CHECK(check_steps(question.bars[b].problem, plan.steps[b]).empty());
  }
  CHECK(found > 20);
  CHECK(none > 6);
  CHECK(dearer > 4);  // else the guards would not have been noticed
}

TEST_CASE("the relaxation of a sure wish is as tight as planes make it", "[buying][guards]") {
  // 10 less the reserve: half of each oil reads 10 - 6 / sqrt(2), all of one reads 4.
  Problem problem;
  problem.steps = 100;
  problem.oils.assign(2, {.least = 1, .most = 100});
  Form form{10, {0, 0}, {}};
  form.guards.push_back({1, less_reserve({{6, 6}})});
  problem.limits.push_back({form, 5.0, kInfinity, 0});
  Goal goal;
  goal.form.linear = {1, 0};
  // sqrt(36 x^2 + 36 (1 - x)^2) <= 5 from x = (1 - sqrt(2 * 25 / 36 - 1)) / 2 on.
  const Relaxed solved = relaxed(problem, goal);
  CHECK_FALSE(solved.empty);
  CHECK(solved.bound == Approx((1 - std::sqrt(50.0 / 36 - 1)) / 2).margin(1e-3));
  problem.limits[0].low = 6;  // 10 - 6 / sqrt(2) = 5.76 is the most
  CHECK(relaxed(problem, goal).empty);
}

TEST_CASE("a plan uses no more than it has, and its blends keep their limits", "[buying]") {
  Random dice{std::mt19937_64(11)};
  for (int round = 0; round < 30; ++round) {
    const BuyingQuestion question = small(dice);
    const BuyingPlan plan = plan_buying(question);
    if (!plan.found) continue;
    std::vector<double> there = question.stock_grams;
    for (const auto& buy : plan.buys) {
      const auto oil = static_cast<std::size_t>(buy.oil);
      there[oil] += buy.count * question.packs[oil][static_cast<std::size_t>(buy.pack)].grams;
    }
    for (std::size_t i = 0; i < there.size(); ++i) {
      CHECK(plan.used_grams[i] <= there[i] + 1e-3);
      CHECK(plan.left_grams[i] + plan.used_grams[i] == Approx(there[i]).margin(1e-3));
    }
    for (std::size_t b = 0; b < question.bars.size(); ++b) {
      const auto& bar = question.bars[b].problem;
      CHECK(bar.limits[0].form.at(bar.shares(plan.steps[b])) >= bar.limits[0].low - 1e-7);
    }
  }
}

TEST_CASE("free delivery from a sum on can make the larger purchase the cheaper", "[buying]") {
  BuyingQuestion question;
  PlannedBar bar;
  bar.problem.steps = 2;
  bar.problem.oils.assign(1, {.least = 1, .most = 2});
  bar.oil_grams = 900;
  question.bars = {bar};
  question.stock_grams = {0};
  oils::PricedPack small_pack, large_pack;
  small_pack.grams = 1000, small_pack.price = 9;
  large_pack.grams = 1200, large_pack.price = 10;
  question.packs = {{small_pack, large_pack}};
  question.worth_per_kg = {9};
  question.delivery = {5, 10};
  const auto plan = plan_buying(question);
  REQUIRE(plan.found);
  CHECK(plan.proved());
  CHECK(plan.cash() == 10);
  CHECK(plan.buys.at(0).pack == 1);
}

TEST_CASE("goods whose prices add up to the sum that frees the delivery pay none", "[buying]") {
  BuyingQuestion question;
  PlannedBar bar;
  bar.problem.steps = 2;
  bar.problem.oils.assign(2, {.least = 1, .most = 1});
  bar.oil_grams = 2000;
  question.bars = {bar};
  question.stock_grams = {0, 0};
  oils::PricedPack one, two;
  one.grams = two.grams = 1000;
  one.price = 10.10, two.price = 20.20;  // 30.299999999999997 in a machine's fractions
  question.packs = {{one}, {two}};
  question.worth_per_kg = {10, 20};
  question.delivery = {5, 30.30};
  const auto plan = plan_buying(question);
  REQUIRE(plan.found);
  CHECK(plan.delivery == 0);
  CHECK(plan.cash() == Approx(30.30));
  question.most_cash = 30.29;
  const auto none = plan_buying(question);
  CHECK_FALSE(none.found);
  CHECK(none.proved());
}

TEST_CASE("prices turn where two blends cost the same", "[prices]") {
  // Two oils; at least half of the score comes from either: oil 0 at 10 per unit, oil 1 at 5.
  Problem problem;
  problem.steps = 10;
  problem.oils.assign(2, {.least = 1, .most = 10});
  Limit limit;
  limit.form.linear = {10, 5};
  limit.low = 6;
  problem.limits = {limit};
  const std::vector<double> prices = {4, 6};
  // All of oil 0 costs 4. With p for oil 0 the rival 2:8 costs 0.2 p + 4.8, equal at p = 6.
  const std::vector<int> best = {10, 0};
  const auto ceiling = price_ceiling(problem, prices, best, 0);
  REQUIRE(ceiling.per_kg);
  CHECK(ceiling.proved);
  CHECK(*ceiling.per_kg == Approx(6));
  const auto worth = price_worth(problem, prices, best, 1);
  REQUIRE(worth.per_kg);
  CHECK(*worth.per_kg == Approx(4));
}
