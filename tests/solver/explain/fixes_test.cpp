#include "solver/explain/fixes.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "solver/explain/conflict.hpp"
#include "tests/solver/explain/explain_cases.hpp"

using namespace barwright::explain;
using namespace barwright::optimise;
using namespace barwright::cases;

namespace {

double violation(const Limit& limit, std::span<const double> x) {
  const double value = limit.form.at(x);
  return std::max({0.0, limit.low - value, value - limit.high});
}

/// Least violation of one limit over the blends that fit the rest: what a fix must find.
double least_violation(const Problem& p, std::size_t limit) {
  Problem rest = p;
  rest.limits.erase(rest.limits.begin() + static_cast<std::ptrdiff_t>(limit));
  double least = kInfinity;
  every_fit(rest, [&](std::span<const int> w) {
    least = std::min(least, violation(p.limits[limit], p.shares(w)));
  });
  return least;
}

}  // namespace

TEST_CASE("the least change to each of two wishes, the milder first") {
  // hardness = 80 x1 + 20 x0 >= 62 (wish 0), lather = 90 x0 + 10 x1 >= 50 (wish 1), tenths.
  // Lather 50 needs 10 + 80 x0 >= 50, x0 >= 0.5: hardness at most 20*.5 + 80*.5 = 50, 12 short.
  // Hardness 62 needs 20 + 60 x1 >= 62, x1 >= 0.7: lather at most 90*.3 + 10*.7 = 34, 16 short.
  Problem p = plain(2, 10);
  p.limits = {at_least({20, 80}, 62, 0), at_least({90, 10}, 50, 1)};
  const std::vector<int> which{0, 1};
  const Fixes even = find_fixes(p, {}, which);
  REQUIRE(even.fixes.size() == 2);
  const Fix& first = even.fixes[0];
  CHECK(first.wishes == std::vector<int>{0});
  REQUIRE(first.changes.size() == 1);
  CHECK(first.changes[0].what == Change::What::floor);
  CHECK(first.changes[0].from == 62);
  CHECK(first.changes[0].to == Approx(50).epsilon(1e-12));
  CHECK(first.size == Approx(12).epsilon(1e-12));
  CHECK(first.proved);
  CHECK(first.steps == std::vector<int>{5, 5});
  CHECK(even.fixes[1].changes[0].to == Approx(34).epsilon(1e-12));

  // Where 4 of hardness but only 8 of lather can be noticed, 16 / 8 is milder than 12 / 4.
  Wishes wishes;
  wishes.measures = {measure_of(p.limits[0], 4), measure_of(p.limits[1], 8)};
  const Fixes felt = find_fixes(p, wishes, which);
  CHECK(felt.fixes[0].wishes == std::vector<int>{1});
  CHECK(felt.fixes[0].size == Approx(2).epsilon(1e-12));
  CHECK(felt.fixes[1].size == Approx(3).epsilon(1e-12));
}

TEST_CASE("a range gives way on its nearer side and keeps the other") {
  // x0 is 0 or 0.5 to 1 (least 5 of 10 steps); the wish is 0.2 to 0.3. Down to 0 is 0.2 away, up
  // to 0.5 is 0.2 away too; with 0.2 to 0.35 the ceiling is nearer: 0.15.
  Problem p = plain(2, 10);
  p.oils[0].least = 5;
  p.limits = {{linear({1, 0}), 0.2, 0.35, 4}};
  const int wish = 4;
  const Fixes f = find_fixes(p, {}, std::span(&wish, 1));
  REQUIRE(f.fixes.size() == 1);
  CHECK(f.fixes[0].changes[0].what == Change::What::ceiling);
  CHECK(f.fixes[0].changes[0].to == Approx(0.5).epsilon(1e-12));
  CHECK(f.fixes[0].size == Approx(0.15).epsilon(1e-12));

  // 0.15 to 0.3: now the floor is nearer, 0.15 against 0.2.
  p.limits = {{linear({1, 0}), 0.15, 0.3, 4}};
  const Fixes g = find_fixes(p, {}, std::span(&wish, 1));
  REQUIRE(g.fixes.size() == 1);
  CHECK(g.fixes[0].changes[0].what == Change::What::floor);
  CHECK(g.fixes[0].changes[0].to == Approx(0).margin(1e-12));
}

TEST_CASE("a wish that opens nothing is told apart from one not decided") {
  Problem p = plain(3, 10);
  p.limits = {at_least({1, 0, 0}, 0.6, 0), at_least({0, 1, 0}, 0.6, 1), at_least({0, 0, 1}, 0, 2)};
  const std::vector<int> which{2};
  CHECK(find_fixes(p, {}, which).no_way == which);
  SearchOptions late;
  late.deadline = std::chrono::steady_clock::now() - std::chrono::seconds(1);
  const Fixes unknown = find_fixes(p, {}, which, late);
  CHECK(unknown.no_way.empty());
  CHECK(unknown.undecided == which);
}

TEST_CASE("counts, stock and least shares give way in whole oils and steps") {
  // Stock of 30 % each of four oils, at most 2 oils: 60 % is the most. Four oils are needed, three
  // give 90 %. Or with two oils one stock alone must rise to 70 %.
  Problem p = plain(4, 10);
  p.most_oils = 2;
  Wishes wishes;
  wishes.rules.push_back({0, RuleKind::most_oils, -1, 2});
  for (int i = 0; i < 4; ++i) {
    p.oils[static_cast<std::size_t>(i)].most = 3;
    wishes.rules.push_back({1 + i, RuleKind::oil_most, i, 3});
  }
  const std::vector<int> which{0, 2};
  const Fixes f = find_fixes(p, wishes, which);
  REQUIRE(f.fixes.size() == 2);
  CHECK(f.fixes[0].changes[0].what == Change::What::rule);
  CHECK(f.fixes[0].changes[0].from == 2);
  CHECK(f.fixes[0].changes[0].to == 4);
  CHECK(f.fixes[0].proved);
  CHECK(f.fixes[1].changes[0].index == 2);
  CHECK(f.fixes[1].changes[0].to == 7);
  CHECK(f.fixes[1].proved);

  // Least 6 steps of any oil used (one wish), at most 5 of each: only 5 lets two halves in.
  Problem q = plain(2, 10);
  Wishes least;
  for (int i = 0; i < 2; ++i) {
    q.oils[static_cast<std::size_t>(i)] = {6, 5, false};
    least.rules.push_back({0, RuleKind::oil_least, i, 6});
  }
  const int wish = 0;
  const Fixes g = find_fixes(q, least, std::span(&wish, 1));
  REQUIRE(g.fixes.size() == 1);
  CHECK(g.fixes[0].size == 1);
  CHECK(g.fixes[0].changes.size() == 2);
  CHECK(g.fixes[0].changes[0].to == 5);

  // At most 9 and at least 9 of each: 5 and 5 is the evenest split, so 9 must come down by 4.
  for (std::size_t i = 0; i < 2; ++i) {
    q.oils[i] = {9, 9, false};
    least.rules[i].bound = 9;
  }
  const Fixes h = find_fixes(q, least, std::span(&wish, 1));
  REQUIRE(h.fixes.size() == 1);
  CHECK(h.fixes[0].size == 4);
  CHECK(h.fixes[0].steps == std::vector<int>{5, 5});
}

TEST_CASE("of several barred oils each that opens the way is offered by itself") {
  // Hardness 50 needs oil 1 (100) or oil 2 (70); oil 3 (40) does not reach. All three are barred by
  // one wish. Oil 1: 50 %; oil 2: 50/70 = 72 %, in tenths 80 %.
  Problem p = plain(4, 10);
  p.limits = {at_least({0, 100, 70, 40}, 50, 1)};
  Wishes wishes;
  for (int i = 1; i < 4; ++i) {
    p.oils[static_cast<std::size_t>(i)].most = 0;
    wishes.rules.push_back({0, RuleKind::oil_most, i, 0});
  }
  const int wish = 0;
  const Fixes f = find_fixes(p, wishes, std::span(&wish, 1));
  REQUIRE(f.fixes.size() == 2);
  CHECK(f.fixes[0].changes.size() == 1);
  CHECK(f.fixes[0].changes[0].index == 0);
  CHECK(f.fixes[0].changes[0].to == 5);
  CHECK(f.fixes[1].changes[0].index == 1);
  CHECK(f.fixes[1].changes[0].to == 8);
}

TEST_CASE("a wish with two numbers gives way by the same number of noticeable steps in both") {
  // One wish: score a = 100 x0 >= 80 and score b = 100 x1 >= 50. At x0 = 0.6 they miss by 20 and
  // 10; at 0.7 by 10 and 20; at 0.65 (20 steps) by 15 and 15: the least common step is 15.
  Problem p = plain(2, 20);
  p.limits = {at_least({100, 0}, 80, 3), at_least({0, 100}, 50, 3)};
  const int wish = 3;
  const Fixes f = find_fixes(p, {}, std::span(&wish, 1));
  REQUIRE(f.fixes.size() == 1);
  CHECK(f.fixes[0].size == Approx(15).epsilon(1e-9));
  CHECK(f.fixes[0].proved);
  CHECK(f.fixes[0].changes.size() == 2);
  CHECK(f.fixes[0].steps == std::vector<int>{13, 7});
}

TEST_CASE("when no single wish opens the way, the fewest to drop and how far they must move") {
  // Two collisions side by side: x0 >= 0.4 against x0 <= 0.2, and x1 >= 0.5 against x1 <= 0.4.
  Problem p = plain(3, 10);
  p.limits = {at_least({1, 0, 0}, 0.4, 0), at_most({1, 0, 0}, 0.2, 1), at_least({0, 1, 0}, 0.5, 2),
              at_most({0, 1, 0}, 0.4, 3)};
  const std::vector<int> all{0, 1, 2, 3};
  CHECK(find_fixes(p, {}, all).no_way == all);
  const WayOut way = fewest_to_drop(p, {});
  CHECK(way.proved);
  REQUIRE(way.wishes.size() == 2);
  const Fix joint = joint_fix(p, {}, way.wishes);
  CHECK(joint.proved);
  CHECK(joint.changes.size() == 2);
  CHECK(joint.size == Approx(0.2).epsilon(1e-6));  // the wider of the gaps 0.2 and 0.1
  CHECK(check_steps(with_fix(p, {}, joint), joint.steps).empty());
}

TEST_CASE("a fix is exactly as large as enumeration says, and nothing smaller opens the way") {
  Dice dice(4242);
  int seen = 0;
  for (int round = 0; round < 250; ++round) {
    Problem p = random_problem(dice, 4, 8, 4, 1);
    if (any_fit(p)) continue;
    const std::vector<int> which{0, 1, 2, 3};
    const Fixes f = find_fixes(p, {}, which);
    CHECK(f.undecided.empty());
    CHECK(f.fixes.size() + f.no_way.size() == 4);
    for (int wish : f.no_way) {
      CHECK(least_violation(p, static_cast<std::size_t>(wish)) == kInfinity);
    }
    for (std::size_t k = 0; k < f.fixes.size(); ++k) {
      const Fix& fix = f.fixes[k];
      ++seen;
      const auto limit = static_cast<std::size_t>(fix.wishes[0]);
      CHECK(fix.proved);
      CHECK(fix.size == Approx(least_violation(p, limit)).margin(1e-6));
      if (k > 0) CHECK(f.fixes[k - 1].size <= fix.size);
      CHECK(any_fit(with_fix(p, {}, fix)));
      Fix less = fix;
      const double back = 1e-4 * (fix.changes[0].to > fix.changes[0].from ? -1 : 1);
      less.changes[0].to += back;
      CHECK_FALSE(any_fit(with_fix(p, {}, less)));
    }
  }
  CHECK(seen > 100);
}

TEST_CASE("rules give way by the least whole number, by enumeration") {
  Dice dice(99);
  int seen = 0;
  for (int round = 0; round < 150; ++round) {
    Problem p = random_problem(dice, 4, 8, 2, 2);
    Wishes wishes;
    p.most_oils = 1 + dice.below(2);
    wishes.rules.push_back({10, RuleKind::most_oils, -1, p.most_oils});
    for (int i = 0; i < 4; ++i) {
      OilBounds& oil = p.oils[static_cast<std::size_t>(i)];
      oil.most = 3 + dice.below(3);
      oil.least = 1 + dice.below(3);
      wishes.rules.push_back({11 + i, RuleKind::oil_most, i, oil.most});
      wishes.rules.push_back({20, RuleKind::oil_least, i, oil.least});
    }
    if (any_fit(p)) continue;
    const std::vector<int> which{10, 11, 12, 13, 14, 20};
    const Fixes f = find_fixes(p, wishes, which);
    for (const Fix& fix : f.fixes) {
      ++seen;
      CHECK(fix.proved);
      CHECK(any_fit(with_fix(p, wishes, fix)));
      // One less of everything that moved by the whole size.
      Fix less = fix;
      for (Change& c : less.changes) {
        if (std::abs(c.to - c.from) >= fix.size) c.to += c.to > c.from ? -1 : 1;
      }
      CHECK_FALSE(any_fit(with_fix(p, wishes, less)));
    }
    for (int wish : f.no_way) CHECK_FALSE(any_fit(without(p, wishes, std::span(&wish, 1))));
  }
  CHECK(seen > 30);
}

TEST_CASE("over more oils: each way out opens, a hair less does not, and any wish left out does") {
  Dice dice(60606);
  int noes = 0, ways = 0, left_out = 0;
  for (int round = 0; round < 900 && noes < 200; ++round) {
    const Problem p = random_problem(dice, 9, 20, 4, 1);
    if (search(p).status != Status::infeasible) continue;
    ++noes;
    CAPTURE(round);
    const Conflict conflict = find_conflict(p, {});
    REQUIRE(conflict.proved);
    REQUIRE(conflict.minimal);
    // The colliding wishes alone leave no blend; without any one of them there is one.
    CHECK(any_blend(with_only(p, {}, conflict.wishes), {}).status == Status::infeasible);
    for (const int wish : conflict.wishes) {
      std::vector<int> others = conflict.wishes;
      std::erase(others, wish);
      ++left_out;
      CHECK_FALSE(any_blend(with_only(p, {}, others), {}).steps.empty());
    }
    const Fixes fixes = find_fixes(p, {}, conflict.wishes);
    CHECK(fixes.undecided.empty());
    for (const int wish : fixes.no_way)
      CHECK(any_blend(without(p, {}, std::span(&wish, 1)), {}).status == Status::infeasible);
    for (const Fix& fix : fixes.fixes) {
      ++ways;
      REQUIRE(fix.proved);
      REQUIRE(fix.changes.size() == 1);
      CHECK_FALSE(any_blend(with_fix(p, {}, fix), {}).steps.empty());
      Fix less = fix;
      less.changes[0].to += 1e-5 * (fix.changes[0].to > fix.changes[0].from ? -1 : 1);
      CHECK(any_blend(with_fix(p, {}, less), {}).status == Status::infeasible);
    }
  }
  CHECK(noes == 200);
  CHECK(ways > 150);
  CHECK(left_out > 300);
}
