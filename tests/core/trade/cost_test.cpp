#include "core/trade/cost.hpp"

#include <catch2/catch.hpp>
#include <numeric>
#include <random>

#include "core/trade/money.hpp"
#include "core/units/error.hpp"

using namespace barwright::core;
using Catch::Matchers::Contains;

TEST_CASE("cents round halves away from zero, whatever binary makes of them") {
  CHECK(cents(1.005) == 101);
  CHECK(cents(-1.005) == -101);
  CHECK(cents(0.004999) == 0);
  CHECK(cents_up(4.690001) == 470);
  CHECK(cents_up(4.69) == 469);
  CHECK(money_text(1230) == "12.30");
  CHECK(money_text(-5) == "-0.05");
  CHECK(money_text(7) == "0.07");
  CHECK_THROWS_AS(cents(1e300), Refusal);
}

TEST_CASE("money shared out adds up, by the largest remainder") {
  CHECK(share_out(100, std::vector<double>{1, 1, 1}) == std::vector<Cents>{34, 33, 33});
  CHECK(share_out(-100, std::vector<double>{1, 1, 1}) == std::vector<Cents>{-34, -33, -33});
  CHECK(share_out(5, std::vector<double>{0, 0}) == std::vector<Cents>{3, 2});
  // A worked example of the method: 21 seats among 1500, 3200, 1300 and 2000 of 8000;
  // quotas 3.9375, 8.4, 3.4125, 5.25 (worked by hand).
  CHECK(share_out(21, std::vector<double>{1500, 3200, 1300, 2000}) ==
        std::vector<Cents>{4, 8, 4, 5});
  CHECK_THROWS_AS(share_out(1, std::vector<double>{-1, 2}), Refusal);
  CHECK_THROWS_AS(share_out(1, std::vector<double>{}), Refusal);

  std::mt19937_64 bits(7);
  for (int round = 0; round < 2000; ++round) {
    std::vector<double> weights(1 + bits() % 9);
    for (double& weight : weights) weight = static_cast<double>(bits() % 1000);
    const auto total = static_cast<Cents>(bits() % 100000);
    const auto parts = share_out(total, weights);
    REQUIRE(std::accumulate(parts.begin(), parts.end(), Cents{0}) == total);
    const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
    for (std::size_t i = 0; i < parts.size() && sum > 0; ++i) {
      REQUIRE(std::abs(static_cast<double>(parts[i]) -
                       static_cast<double>(total) * weights[i] / sum) < 1);
    }
  }
}

TEST_CASE("rounded lines add up to the rounded total") {
  CHECK(rounded_together(std::vector<double>{0.005, 0.005, 0.005}) == std::vector<Cents>{1, 1, 0});
  const std::vector<double> amounts{1.114, 2.224, 3.334};
  const auto parts = rounded_together(amounts);
  CHECK(std::accumulate(parts.begin(), parts.end(), Cents{0}) == 667);
}

TEST_CASE("a batch by hand: every line, bars that cannot be sold, overhead on the rest") {
  const std::vector<CostItem> pot = {{CostKind::oils, "olive", 9.2752, true, ""},
                                     {CostKind::lye, "sodium hydroxide", 1.7203, true, ""}};
  Workshop shop;
  shop.packaging_per_bar = 0.22;
  shop.minutes_per_batch = 150;
  shop.minutes_per_bar = 2;
  shop.pay_per_hour = 18;
  shop.overhead_per_batch = 12;
  shop.overhead_share = 0.1;
  shop.unsellable_share = 0.05;  // of 36: 1.8, so 2 bars
  const BatchCost cost = batch_cost(pot, shop, 36);
  CHECK(cost.sellable == 34);
  CHECK(cost.of(CostKind::packaging) == 748);
  CHECK(cost.of(CostKind::labour) == 6660);  // 222 min at 18.00
  // 12 + 10 % of (9.2752 + 1.7203 + 7.48 + 66.60) = 20.50755
  CHECK(cost.of(CostKind::overhead) == 2051);
  Cents sum = 0;
  for (const auto& line : cost.lines) sum += line.cents;
  CHECK(sum == cost.total);
  CHECK(cost.total == 10558);  // 105.58305
  CHECK(cost.per_bar == Approx(105.58 / 34));
  CHECK(cost.lost_per_bar == Approx(105.58 / 34 - 105.58 / 36));
  CHECK(cost.complete);
  shop.unsellable = 36;
  CHECK_THROWS_WITH(batch_cost(pot, shop, 36), Contains("no bar is left"));
  CHECK_THROWS_AS(batch_cost(pot, Workshop{}, 0), Refusal);
  Workshop negative;
  negative.pay_per_hour = -1;
  CHECK_THROWS_AS(batch_cost(pot, negative, 36), Refusal);
}

TEST_CASE("margin is of the price; price and margin are each other's inverse") {
  CHECK(price_for_margin(3, 0.5) == Approx(6));
  CHECK(margin_of_price(3, 6) == Approx(0.5));
  CHECK(margin_of_price(3, 2) == Approx(-0.5));
  CHECK_THROWS_WITH(price_for_margin(3, 1), Contains("mark-up"));
  CHECK_THROWS_AS(margin_of_price(3, 0), Refusal);
  for (int margin = 0; margin < 99; ++margin) {
    for (const double tax : {0.0, 0.07, 0.19}) {
      const auto price = least_price(3.0512, margin / 100.0, tax);
      CHECK(price.margin >= margin / 100.0 - 1e-12);
      // One cent less no longer keeps it.
      CHECK(judged_price(3.0512, price.shown - 1, tax).margin < margin / 100.0);
    }
  }
  const auto shown = judged_price(3.05, 650, 0.19);
  CHECK(shown.net == Approx(6.5 / 1.19));
  CHECK(shown.earned == Approx(6.5 / 1.19 - 3.05));
}
