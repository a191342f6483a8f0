// Small problems beside exact arithmetic: every blend in whole numbers, and GLPK's simplex over
// rational numbers (glp_exact) over every set of oils. Coefficients are whole, so that each form at
// whole steps is a whole number; the cases are where figures are apt to go wrong: identical oils,
// ranges without width, ranges at the edge of what can be reached, one oil alone, prices of 0 and
// of 1e9.
#include <glpk.h>

#include <catch2/catch.hpp>
#include <cstdint>
#include <memory>
#include <optional>

#include "solver/optimise/search.hpp"
#include "tests/solver/optimise/instances.hpp"

using namespace barwright::optimise;
using barwright::testing::Uniform;

namespace {

constexpr int kOils = 5;

struct Whole {
  int steps = 0, most_oils = 0;
  std::vector<OilBounds> oils;
  std::vector<std::vector<std::int64_t>> rows;                // times w, not shares
  std::vector<std::pair<std::int64_t, std::int64_t>> ranges;  // of row . w
  std::vector<std::int64_t> price;

  Problem problem() const {
    Problem out;
    out.steps = steps;
    out.oils = oils;
    out.most_oils = most_oils;
    const auto linear = [](const std::vector<std::int64_t>& from) {
      return Form{0, std::vector<double>(from.begin(), from.end()), {}};
    };
    for (std::size_t r = 0; r < rows.size(); ++r)
      out.limits.push_back({linear(rows[r]), double(ranges[r].first) / steps,
                            double(ranges[r].second) / steps, int(r)});
    out.goals = {Goal{linear(price), {}, 0}};
    return out;
  }
};

std::int64_t dot(const std::vector<std::int64_t>& row, const std::vector<int>& w) {
  std::int64_t out = 0;
  for (std::size_t i = 0; i < w.size(); ++i) out += row[i] * w[i];
  return out;
}

bool fits(const Whole& of, const std::vector<int>& w) {
  int used = 0;
  for (std::size_t i = 0; i < w.size(); ++i) {
    if (w[i] > 0 && (w[i] < of.oils[i].least || w[i] > of.oils[i].most)) return false;
    if (w[i] == 0 && of.oils[i].must) return false;
    used += w[i] > 0 ? 1 : 0;
  }
  if (of.most_oils > 0 && used > of.most_oils) return false;
  for (std::size_t r = 0; r < of.rows.size(); ++r) {
    const auto value = dot(of.rows[r], w);
    if (value < of.ranges[r].first || value > of.ranges[r].second) return false;
  }
  return true;
}

/// The least price of any blend, times the steps; nothing where none fits.
std::optional<std::int64_t> counted(const Whole& of, std::vector<int>& w, std::size_t at,
                                    int left) {
  if (at + 1 == w.size()) {
    w[at] = left;
    return fits(of, w) ? std::optional(dot(of.price, w)) : std::nullopt;
  }
  std::optional<std::int64_t> best;
  for (w[at] = 0; w[at] <= left; ++w[at]) {
    const int here = w[at];
    const auto found = counted(of, w, at + 1, left - here);
    w[at] = here;
    if (found && (!best || *found < *best)) best = found;
  }
  return best;
}

/// The least price over continuous shares of one set of oils, by exact arithmetic.
std::optional<double> relaxed(const Whole& of, unsigned set) {
  const std::unique_ptr<glp_prob, void (*)(glp_prob*)> lp(glp_create_prob(), glp_delete_prob);
  glp_add_cols(lp.get(), kOils);
  glp_add_rows(lp.get(), int(of.rows.size()) + 1);
  for (int i = 0; i < kOils; ++i) {
    const auto& oil = of.oils[std::size_t(i)];
    const bool in = ((set >> i) & 1U) != 0;
    const double low = in ? oil.least : 0, high = in ? oil.most : 0;
    if (low > high) return std::nullopt;
    glp_set_col_bnds(lp.get(), i + 1, low == high ? GLP_FX : GLP_DB, low, high);
    glp_set_obj_coef(lp.get(), i + 1, double(of.price[std::size_t(i)]));
  }
  const std::vector<int> index = {0, 1, 2, 3, 4, 5};
  const std::vector<double> ones(kOils + 1, 1);
  glp_set_mat_row(lp.get(), 1, kOils, index.data(), ones.data());
  glp_set_row_bnds(lp.get(), 1, GLP_FX, of.steps, of.steps);
  for (std::size_t r = 0; r < of.rows.size(); ++r) {
    std::vector<double> row(1, 0);
    row.insert(row.end(), of.rows[r].begin(), of.rows[r].end());
    glp_set_mat_row(lp.get(), int(r) + 2, kOils, index.data(), row.data());
    const auto [low, high] = of.ranges[r];
    glp_set_row_bnds(lp.get(), int(r) + 2, low == high ? GLP_FX : GLP_DB, double(low),
                     double(high));
  }
  glp_smcp how;
  glp_init_smcp(&how);
  how.msg_lev = GLP_MSG_OFF;
  REQUIRE(glp_exact(lp.get(), &how) == 0);
  if (glp_get_status(lp.get()) != GLP_OPT) return std::nullopt;
  return glp_get_obj_val(lp.get());
}

std::optional<double> relaxed(const Whole& of) {
  std::optional<double> best;
  for (unsigned set = 1; set < (1U << kOils); ++set) {
    int size = 0;
    bool allowed = true;
    for (unsigned i = 0; i < kOils; ++i) {
      const bool in = ((set >> i) & 1U) != 0;
      size += in ? 1 : 0;
      allowed = allowed && (in ? of.oils[i].most > 0 : !of.oils[i].must);
    }
    if (!allowed || (of.most_oils > 0 && size > of.most_oils)) continue;
    const auto found = relaxed(of, set);
    if (found && (!best || *found < *best)) best = found;
  }
  return best;
}

Whole drawn(std::uint64_t seed) {
  Uniform dice(seed);
  Whole out;
  out.steps = 4 + dice.whole(0, 12);
  out.most_oils = dice.whole(0, 4);
  for (int i = 0; i < kOils; ++i)
    out.oils.push_back({dice.whole(1, 2), dice.whole(out.steps / 2, out.steps), false});
  if (seed % 5 == 0) out.oils[0].must = true;
  const auto row = [&](int most) {
    std::vector<std::int64_t> one;
    for (int i = 0; i < kOils; ++i) one.push_back(dice.whole(0, most));
    return one;
  };
  const int limits = dice.whole(1, 3);
  for (int r = 0; r < limits; ++r) out.rows.push_back(row(100));
  out.price = row(1000);
  if (seed % 4 == 1)  // identical oils, price and all
    for (auto* one : {&out.rows[0], &out.rows.back(), &out.price}) (*one)[1] = (*one)[0];
  if (seed % 6 == 2) out.price = {0, 0, 1000000000, 1000000000, dice.whole(0, 5)};
  if (seed % 6 == 3) out.price = std::vector<std::int64_t>(kOils, 0);
  // A hidden blend, so that many fit; around it ranges with and without width.
  std::vector<int> w(kOils, 0);
  for (int s = 0; s < out.steps; ++s) ++w[std::size_t(dice.whole(0, kOils - 1))];
  for (const auto& one : out.rows) {
    const auto value = dot(one, w);
    const auto [least, most] = std::minmax_element(one.begin(), one.end());
    switch (dice.whole(0, 3)) {
      case 0:
        out.ranges.emplace_back(value, value);  // no width
        break;
      case 1:
        out.ranges.emplace_back(*most * out.steps, *most * out.steps);  // the edge of reach
        break;
      case 2:
        out.ranges.emplace_back(*least * out.steps, *least * out.steps + dice.whole(0, 40));
        break;
      default:
        out.ranges.emplace_back(value - dice.whole(0, 60), value + dice.whole(0, 60));
    }
  }
  return out;
}

}  // namespace

TEST_CASE("the search agrees with exact arithmetic at every edge", "[exact]") {
  int fitting = 0, none = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    CAPTURE(seed);
    const Whole whole = drawn(seed);
    std::vector<int> w(kOils, 0);
    const auto best = counted(whole, w, 0, whole.steps);
    for (const bool plain : {false, true}) {
      SearchOptions options;
      options.plain = plain;
      const Answer answer = search(whole.problem(), options);
      REQUIRE((answer.status == Status::optimal || answer.status == Status::infeasible));
      CHECK((answer.status == Status::optimal) == best.has_value());
      if (!best || answer.status != Status::optimal) continue;
      CHECK(fits(whole, answer.steps));
      const double price = double(*best) / whole.steps;
      CHECK(std::abs(answer.goals[0].value - price) <= kGap * std::max(1.0, price));
      CHECK(answer.goals[0].bound <= price + 1e-12 * std::max(1.0, price));
      const auto least = relaxed(whole);
      REQUIRE(least);  // whole steps are shares, too
      CHECK(answer.goals[0].value >= *least / whole.steps - kTolerance * std::max(1.0, price));
    }
    if (!relaxed(whole)) CHECK_FALSE(best);
    ++(best ? fitting : none);
  }
  CHECK(fitting > 50);
  CHECK(none > 50);
}
