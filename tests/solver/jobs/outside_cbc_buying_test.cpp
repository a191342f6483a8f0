// The buying plan as one whole-number programme, put to CBC: an outside solver that shares none of
// our code.
#include <coin/Cbc_C_Interface.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "solver/jobs/buying/buying_plan.hpp"
#include "solver/optimise/checker.hpp"
#include "tests/solver/optimise/instances.hpp"

using namespace barwright;
using namespace barwright::jobs;
using namespace barwright::optimise;
using barwright::testing::Uniform;

namespace {

// Two bars over the same 60 oils, each with half of an instance's ranges; a fifth of the oils are
// in stock, the others come in packs of two sizes.
BuyingQuestion sixty_oils(std::uint64_t seed) {
  barwright::testing::InstanceSpec spec;
  spec.seed = seed;
  spec.cost_ceiling = false;
  Problem all = barwright::testing::make_instance(spec);
  Uniform draw(seed * 7 + 3);
  BuyingQuestion out;
  all.most_oils = 0;
  const std::vector<double> prices = all.goals[0].form.linear;
  all.goals.clear();
  for (auto& oil : all.oils) oil.most = all.steps;
  const std::size_t half = all.limits.size() / 2;
  for (int b = 0; b < 2; ++b) {
    PlannedBar bar;
    bar.problem = all;
    const auto middle = all.limits.begin() + std::ptrdiff_t(half);
    bar.problem.limits = b == 0 ? std::vector<Limit>(all.limits.begin(), middle)
                                : std::vector<Limit>(middle, all.limits.end());
    bar.oil_grams = 1000 * draw.whole(3, 9);
    out.bars.push_back(std::move(bar));
  }
  for (const double price : prices) {
    out.stock_grams.push_back(draw() < 0.2 ? draw(200, 4000) : 0);
    out.worth_per_kg.push_back(price);
    oils::PricedPack small, large;
    small.grams = 1000;
    small.price = std::round(100 * price * draw(1.1, 1.4)) / 100;
    large.grams = 5000;
    large.price = std::round(100 * 5 * price) / 100;
    out.packs.push_back({small, large});
  }
  out.most_oils = 8;
  out.most_new = draw.whole(3, 6);
  out.delivery = {9, 60};
  return out;
}

// One to three bars over 14 oils: taxed prices that are no whole cents, delivery of all kinds, a
// ceiling on the cash that is often just too low.
BuyingQuestion with_money(std::uint64_t seed) {
  barwright::testing::InstanceSpec spec;
  spec.seed = seed * 31 + 5;
  spec.oils = 14;
  spec.cost_ceiling = false;
  Problem all = barwright::testing::make_instance(spec);
  Uniform draw(seed * 11 + 1);
  BuyingQuestion out;
  const std::vector<double> prices = all.goals[0].form.linear;
  all.most_oils = 0;
  all.goals.clear();
  for (auto& oil : all.oils) oil.most = all.steps;
  const int bars = draw.whole(1, 3);
  for (int b = 0; b < bars; ++b) {
    PlannedBar bar;
    bar.problem = all;
    bar.problem.limits.clear();
    for (std::size_t l = std::size_t(b); l < all.limits.size(); l += std::size_t(bars))
      bar.problem.limits.push_back(all.limits[l]);
    bar.oil_grams = 500 * draw.whole(2, 9);
    out.bars.push_back(std::move(bar));
  }
  const double tax = draw() < 0.5 ? 1 : 1.07;
  for (const double price : prices) {
    out.stock_grams.push_back(draw() < 0.25 ? draw(100, 3000) : 0);
    out.worth_per_kg.push_back(price * tax);
    out.packs.emplace_back();
    for (const double kilograms : {0.5, 1.0, 5.0}) {
      if (draw() < 0.3) continue;
      oils::PricedPack pack;
      pack.grams = 1000 * kilograms;
      pack.price = std::round(100 * kilograms * price * draw(0.9, 1.3)) / 100 * tax;
      out.packs.back().push_back(pack);
    }
  }
  out.most_oils = draw.whole(0, 6);
  out.most_new = draw.whole(-1, 5);
  out.delivery.flat = draw() < 0.3 ? 0 : draw.whole(300, 1500) / 100.0;
  if (seed % 8 == 0) out.delivery.flat *= 5;
  if (draw() < 0.7) out.delivery.free_over = draw.whole(20, 120);
  if (draw() < 0.4) out.most_cash = draw.whole(15, 120);
  return out;
}

// Rows and columns for CBC, column by column.
class Programme {
 public:
  int column(double high, double cost, bool whole) {
    columns_.emplace_back();
    high_.push_back(high);
    cost_.push_back(cost);
    whole_.push_back(whole);
    return int(columns_.size()) - 1;
  }
  int row(double from, double to) {
    row_low_.push_back(from);
    row_high_.push_back(to);
    return int(row_low_.size()) - 1;
  }
  void put(int row, int column, double value) {
    if (value != 0) columns_[std::size_t(column)].emplace_back(row, value);
  }
  // The least cost, proved; infinite: proved that there is none; NaN: neither.
  double least() const {
    std::vector<CoinBigIndex> start{0};
    std::vector<int> index;
    std::vector<double> value;
    for (const auto& column : columns_) {
      for (const auto& [r, v] : column) {
        index.push_back(r);
        value.push_back(v);
      }
      start.push_back(CoinBigIndex(index.size()));
    }
    const std::vector<double> low(columns_.size(), 0.0);
    Cbc_Model* model = Cbc_newModel();
    Cbc_loadProblem(model, int(columns_.size()), int(row_low_.size()), start.data(), index.data(),
                    value.data(), low.data(), high_.data(), cost_.data(), row_low_.data(),
                    row_high_.data());
    for (std::size_t c = 0; c < whole_.size(); ++c)
      if (whole_[c]) Cbc_setInteger(model, int(c));
    // Without its preprocessing, which loses the best plan of some of these (CBC 2.10.8).
    for (const auto& [name, setting] : {std::pair{"log", "0"},
                                        {"ratioGap", "0"},
                                        {"allowableGap", "0"},
                                        {"increment", "1e-9"},
                                        {"preprocess", "off"}})
      Cbc_setParameter(model, name, setting);
    Cbc_solve(model);
    const double found = Cbc_isProvenOptimal(model)      ? Cbc_getObjValue(model)
                         : Cbc_isProvenInfeasible(model) ? kInfinity
                                                         : std::nan("");
    Cbc_deleteModel(model);
    return found;
  }

 private:
  std::vector<std::vector<std::pair<int, double>>> columns_;
  std::vector<double> high_, cost_, row_low_, row_high_;
  std::vector<char> whole_;
};

// Least cash, delivered: w steps of each oil in each bar, z: the oil is in the bar, y: in the
// range; packs p; the delivery is paid (d) unless the goods reach the sum that frees it (f).
double least_cash_by_cbc(const BuyingQuestion& q) {
  constexpr double kMostMoney = 1000, kMostPacks = 40;
  Programme m;
  const std::size_t oils = q.stock_grams.size();
  const int paid = m.column(1, q.delivery.flat, true),
            freed = m.column(std::isfinite(q.delivery.free_over) ? 1 : 0, 0, true);
  const int either = m.row(-kInfinity, 0), reach = m.row(0, kInfinity);
  m.put(either, paid, -kMostMoney);
  m.put(either, freed, -kMostMoney);
  m.put(reach, freed, -std::min(q.delivery.free_over, kMostMoney));
  const int cash = m.row(-kInfinity, q.most_cash);
  m.put(cash, paid, q.delivery.flat);
  const int count = m.row(0, q.most_oils > 0 ? q.most_oils : kInfinity),
            fresh = m.row(0, q.most_new >= 0 ? q.most_new : kInfinity);
  std::vector<int> in, weight;
  for (std::size_t i = 0; i < oils; ++i) {
    in.push_back(m.column(1, 0, true));
    m.put(count, in[i], 1);
    if (q.stock_grams[i] <= 0) m.put(fresh, in[i], 1);
    weight.push_back(m.row(-kInfinity, q.stock_grams[i] / 1000));
    for (const auto& pack : q.packs[i]) {
      const int packs = m.column(kMostPacks, pack.price, true);
      m.put(either, packs, pack.price);
      m.put(reach, packs, pack.price);
      m.put(cash, packs, pack.price);
      m.put(weight[i], packs, -pack.grams / 1000);
    }
  }
  for (const auto& bar : q.bars) {
    const Problem& problem = bar.problem;
    const int sum = m.row(problem.steps, problem.steps);
    std::vector<int> rows;
    for (const Limit& limit : problem.limits)
      rows.push_back(m.row(limit.low - limit.form.constant, limit.high - limit.form.constant));
    for (std::size_t i = 0; i < oils; ++i) {
      const OilBounds& oil = problem.oils[i];
      const int w = m.column(oil.most, 0, true), z = m.column(1, 0, true);
      m.put(sum, w, 1);
      const int above = m.row(0, kInfinity), below = m.row(-kInfinity, 0),
                ranged = m.row(-kInfinity, 0);
      m.put(above, w, 1);
      m.put(above, z, -oil.least);
      m.put(below, w, 1);
      m.put(below, z, -oil.most);
      m.put(ranged, z, 1);
      m.put(ranged, in[i], -1);
      m.put(weight[i], w, bar.oil_grams / 1000 / problem.steps);
      for (std::size_t r = 0; r < rows.size(); ++r)
        m.put(rows[r], w, problem.limits[r].form.linear[i] / problem.steps);
    }
  }
  return m.least();
}

}  // namespace

TEST_CASE("over 60 oils the least cash is what CBC finds", "[buying][cbc]") {
  int found = 0;
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    const BuyingQuestion question = sixty_oils(seed);
    const BuyingPlan plan = plan_buying(question);
    const double expected = least_cash_by_cbc(question);
    CAPTURE(seed, expected, plan.tried);
    REQUIRE(plan.proved());
    REQUIRE(plan.found == std::isfinite(expected));
    if (!plan.found) continue;
    ++found;
    CHECK(plan.cash() == Approx(expected).margin(1e-6));
  }
  CHECK(found >= 3);
}

TEST_CASE("tax, delivery, a ceiling on cash: the plan is what CBC finds", "[buying][cbc]") {
  int found = 0, none = 0, freed = 0;
  for (std::uint64_t seed = 1; seed <= 28; ++seed) {
    const BuyingQuestion question = with_money(seed);
    const BuyingPlan plan = plan_buying(question);
    const double expected = least_cash_by_cbc(question);
    CAPTURE(seed, expected, plan.tried);
    CHECK(plan.proved());
    REQUIRE(plan.found == std::isfinite(expected));
    (plan.found ? found : none) += 1;
    freed += plan.goods > 0 && plan.delivery == 0 && question.delivery.flat > 0;
    if (!plan.found) continue;
    CHECK(plan.cash() == Approx(expected).margin(1e-6));
    CHECK(plan.cash() <= question.most_cash + 1e-6);
    for (std::size_t b = 0; b < question.bars.size(); ++b)
      CHECK(check_steps(question.bars[b].problem, plan.steps[b]).empty());
  }
  CHECK(found > 10);
  CHECK(none > 5);
  CHECK(freed > 1);
}

TEST_CASE("cut short anywhere, a plan claims no more than holds", "[buying]") {
  int proved = 0, cut = 0, none = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const BuyingQuestion question = with_money(seed);
    const BuyingPlan whole = plan_buying(question);
    const double expected = whole.found ? whole.cash() : kInfinity;
    for (int way = 0; way < 4; ++way) {
      SearchOptions options;
      Allowance allowance{std::uint64_t(way < 2 ? 3'000'000 : way == 2 ? 30'000 : 1'000'000)};
      options.allowance = &allowance;
      options.most_nodes = way == 0 ? 1 : way == 1 ? 4 : 0;
      const BuyingPlan plan = plan_buying(question, options);
      CAPTURE(seed, way, expected, plan.bound, plan.cash());
      CHECK(plan.bound <= expected + 1e-6);
      if (plan.found) CHECK(plan.cash() >= expected - 1e-6);
      if (plan.proved()) CHECK((plan.found ? plan.cash() : kInfinity) <= expected + 0.01);
      // Trials that found nothing are no matter once another settles what they left.
      if (way < 2) (plan.proved() ? proved : cut) += 1;
      none += plan.proved() && !plan.found;
    }
  }
  CHECK(proved > 20);
  CHECK(cut > 5);
  CHECK(none > 20);
}
