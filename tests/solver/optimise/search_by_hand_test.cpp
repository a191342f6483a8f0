// Problems solved on paper; each goes through both modes of the search.

#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>

#include "solver/optimise/checker.hpp"
#include "solver/optimise/search.hpp"

using namespace barwright::optimise;

namespace {

Problem of(std::vector<OilBounds> oils, std::vector<Limit> limits, std::vector<Goal> goals,
           int most_oils = 0) {
  Problem p;
  p.oils = std::move(oils);
  p.limits = std::move(limits);
  p.goals = std::move(goals);
  p.most_oils = most_oils;
  return p;
}

Form line(std::vector<double> a, double constant = 0) { return Form{constant, std::move(a), {}}; }
Goal cheapest(std::vector<double> prices) { return Goal{line(std::move(prices)), {}, 0}; }

// Expects `value` of the first goal, proved, in both modes; returns the answer of the first.
Answer expect(const Problem& p, double value) {
  Answer first;
  for (const bool plain : {false, true}) {
    SearchOptions options;
    options.plain = plain;
    const Answer answer = search(p, options);
    INFO("plain " << plain << ": " << answer.reason);
    REQUIRE(answer.status == Status::optimal);
    CHECK(check_steps(p, answer.steps).empty());
    CHECK(answer.goals[0].value == Approx(value).margin(1e-9));
    CHECK(answer.goals[0].bound <= answer.goals[0].value);
    CHECK(answer.goals[0].value - answer.goals[0].bound <=
          p.goals[0].give + kGap * std::max(1.0, std::abs(answer.goals[0].value)));
    if (!plain) first = answer;
  }
  return first;
}

void expect_none(const Problem& p) {
  for (const bool plain : {false, true}) {
    SearchOptions options;
    options.plain = plain;
    const Answer answer = search(p, options);
    CHECK(answer.status == Status::infeasible);
    CHECK(answer.steps.empty());
    CHECK_FALSE(answer.reason.empty());
  }
}

const std::vector<OilBounds> kFree{{1, 100, false}, {1, 100, false}, {1, 100, false}};

}  // namespace

TEST_CASE("by hand: cheapest with one floor", "[search]") {
  // Hardness 20 a + 70 b >= 45, a = 1 - b: 50 b >= 25, b >= 0.5. Price 3 a + 8 b = 3 + 5 b = 5.5.
  const auto p = of({{1, 100, false}, {1, 100, false}}, {{line({20, 70}), 45, kInfinity, 0}},
                    {cheapest({3, 8})});
  CHECK(expect(p, 5.5).steps == std::vector<int>{50, 50});
}

TEST_CASE("by hand: whole steps round the floor up", "[search]") {
  // 20 a + 70 b >= 45.2: b >= 0.504, so 51 steps: 3 + 5 * 0.51 = 5.55.
  const auto p = of({{1, 100, false}, {1, 100, false}}, {{line({20, 70}), 45.2, kInfinity, 0}},
                    {cheapest({3, 8})});
  CHECK(expect(p, 5.55).steps == std::vector<int>{49, 51});
}

TEST_CASE("by hand: out, or at least so much", "[search]") {
  // 10 b + 30 c >= 1.5 needs b = 0.15 (price 2 -> 1 + 0.15 = 1.15) or c = 0.05 (price 9 -> 1 + 0.4
  // = 1.4), but c is at least 0.10 when used: 1.8. With b capped at 0.12: b = 0.12 gives 1.2, c
  // must add 0.3, that is 0.10 anyway, and then b is not needed: c alone, 1 + 8 * 0.10 = 1.8.
  auto p = of({{1, 100, false}, {1, 100, false}, {10, 100, false}},
              {{line({0, 10, 30}), 1.5, kInfinity, 0}}, {cheapest({1, 2, 9})});
  CHECK(expect(p, 1.15).steps == std::vector<int>{85, 15, 0});
  p.oils[1].most = 12;
  CHECK(expect(p, 1.8).steps == std::vector<int>{90, 0, 10});
}

TEST_CASE("by hand: at most so many oils", "[search]") {
  // Each of a, b at most 0.5 and cheap (1, 2), c dear (5): three oils do not help, two at most:
  // a 0.5 + b 0.5 = 1.5. At most one oil: c alone, 5.
  auto p = of({{1, 50, false}, {1, 50, false}, {1, 100, false}}, {}, {cheapest({1, 2, 5})}, 2);
  CHECK(expect(p, 1.5).steps == std::vector<int>{50, 50, 0});
  p.most_oils = 1;
  CHECK(expect(p, 5).steps == std::vector<int>{0, 0, 100});
}

TEST_CASE("by hand: a pinned oil is never out, a barred one never in", "[search]") {
  auto p = of({{5, 100, true}, {1, 100, false}, {1, 0, false}}, {}, {cheapest({9, 2, 1})});
  CHECK(expect(p, 2 + 7 * 0.05).steps == std::vector<int>{5, 95, 0});
  p.oils[0].most = 0;  // pinned and barred
  expect_none(p);
}

TEST_CASE("by hand: nothing fits", "[search]") {
  // 20 a + 70 b cannot exceed 70.
  expect_none(of({{1, 100, false}, {1, 100, false}}, {{line({20, 70}), 70.5, kInfinity, 0}},
                 {cheapest({3, 8})}));
  // Two ranges that each hold somewhere, together nowhere: b >= 0.5 and b <= 0.4.
  expect_none(of({{1, 100, false}, {1, 100, false}},
                 {{line({0, 1}), 0.5, kInfinity, 0}, {line({0, 1}), -kInfinity, 0.4, 1}},
                 {cheapest({3, 8})}));
  // Between two steps: only b = 0.505 would do.
  expect_none(of({{1, 100, false}, {1, 100, false}}, {{line({0, 1}), 0.504, 0.506, 0}}, {}));
  // Stock of 40 + 30 + 20 % is not a whole blend.
  expect_none(of({{1, 40, false}, {1, 30, false}, {1, 20, false}}, {}, {cheapest({1, 1, 1})}));
}

TEST_CASE("by hand: nearest to a point", "[search]") {
  // (20 a + 70 b - 50)^2 + 4 (10 a - 2)^2 with a = 1 - b: (50 b - 30)^2 + 4 (8 - 10 b)^2.
  // Derivative 100 (50 b - 30) - 80 (8 - 10 b) = 5800 b - 3640 = 0: b = 0.62759; the parabola is
  // symmetric, so the nearest step 0.63 is best: 1.5^2 + 4 * 1.7^2 = 2.25 + 11.56 = 13.81.
  Goal goal{line({0, 0}), {{line({20, 70}), 50, 1}, {line({10, 0}), 2, 4}}, 0};
  const auto p = of({{1, 100, false}, {1, 100, false}}, {}, {goal});
  CHECK(expect(p, 13.81).steps == std::vector<int>{37, 63});
}

TEST_CASE("by hand: a floor on a concave form", "[search]") {
  // Castor-like help: 30 a + 40 b + min(100 c, 8) >= 40 with c at 1 % or more. c costs 9, b 5, a 1.
  // Per step c brings 1 until c = 0.08. b = 1 - a - c: 40 - 10 a - 40 c + 100 c >= 40 for c <=
  // 0.08: a <= 6 c. Price 5 - 4 a + 4 c = 5 - 20 c at a = 6 c: c = 0.08, a = 0.48, b = 0.44: 3.4.
  // Beyond 0.08 the help stays 8: 10 a <= 8 - 40 c, less of a and more of c: dearer.
  const auto p = of(kFree, {{Form{0, {30, 40, 0}, {{1, {0, 0, 100}, 8}}}, 40, kInfinity, 0}},
                    {cheapest({1, 5, 9})});
  CHECK(expect(p, 3.4).steps == std::vector<int>{48, 44, 8});
}

TEST_CASE("by hand: a ceiling on a concave form is kept by splitting", "[search]") {
  // min(100 c, 8) + 10 b <= 4, most of c: either c <= 0.04 (b = 0) -- never above 8 - so c = 0.04.
  // With the ceiling at 9 the cap leaves room: any c, b <= 0.1: c = 1.
  auto p = of(kFree, {{Form{0, {0, 10, 0}, {{1, {0, 0, 100}, 8}}}, -kInfinity, 4, 0}},
              {cheapest({0, 0, -1})});
  CHECK(expect(p, -0.04).steps[2] == 4);
  p.limits[0].high = 9;
  CHECK(expect(p, -1).steps == std::vector<int>{0, 0, 100});
}

TEST_CASE("by hand: first goal, then the second within what the first gives", "[search]") {
  // Price a 1, b 1, c 2; second goal: most of c. Without give: no c at all, b or a.
  // Give 0.25: price <= 1.25, so c = 0.25.
  auto p = of(kFree, {}, {cheapest({1, 1, 2}), cheapest({0, 0, -1})});
  const Answer tight = expect(p, 1);
  CHECK(tight.steps[2] == 0);
  CHECK(tight.goals.size() == 2);
  p.goals[0].give = 0.25;
  const Answer loose = expect(p, 1.25);  // what the blend told costs; proved: 1
  CHECK(loose.goals[0].bound == Approx(1).epsilon(1e-6));
  CHECK(loose.steps[2] == 25);
  CHECK(loose.goals[1].value == Approx(-0.25).margin(1e-9));
}

TEST_CASE("by hand: a curved first goal stays a ceiling for the second", "[search]") {
  // (a - 0.5)^2 * 100 with give 0.01: |a - 0.5| <= 0.01; then the least of a: 0.49.
  Goal near{line({0, 0}), {{line({10, 0}), 5, 1}}, 0.01};
  const auto p = of({{1, 100, false}, {1, 100, false}}, {}, {near, cheapest({1, 0})});
  CHECK(expect(p, 0.01).steps == std::vector<int>{49, 51});
}

TEST_CASE("by hand: two lots of one oil are used from the first on", "[search]") {
  // Three lots at one price: the first until its stock ends, then the second.
  const auto p = of({{4, 60, false}, {4, 60, false}, {4, 60, false}}, {}, {cheapest({2, 2, 2})});
  CHECK(expect(p, 2).steps == std::vector<int>{60, 40, 0});
}

TEST_CASE("search: without a goal any blend that fits will do", "[search]") {
  const auto p = of(kFree, {{line({0, 0, 1}), 0.3, 0.3, 0}}, {});
  const Answer answer = search(p);
  CHECK(answer.status == Status::optimal);
  CHECK(answer.goals.empty());
  CHECK(answer.steps[2] == 30);
}

TEST_CASE("search: stopped at once it claims nothing", "[search]") {
  const auto p = of(kFree, {}, {cheapest({1, 2, 3})});
  const std::atomic<bool> stop{true};
  SearchOptions options;
  options.stop = &stop;
  Answer answer = search(p, options);
  CHECK(answer.status == Status::undecided);
  options.start = {0, 0, 100};  // a blend to start from is then the best so far, with its gap
  answer = search(p, options);
  CHECK(answer.status == Status::feasible);
  CHECK(answer.steps == options.start);
  CHECK(answer.goals[0].bound == Approx(1).margin(1e-6));  // of the relaxation, not -infinity
  SearchOptions late;
  late.deadline = std::chrono::steady_clock::now() - std::chrono::seconds(1);
  CHECK(search(p, late).status == Status::undecided);
}

TEST_CASE("search: a start that does not fit is ignored, one that fits changes no value",
          "[search]") {
  const auto p = of(kFree, {{line({0, 0, 1}), 0.3, kInfinity, 0}}, {cheapest({1, 2, 3})});
  SearchOptions options;
  for (const auto& start :
       {std::vector<int>{100, 0, 0}, std::vector<int>{0, 0, 100}, std::vector<int>{1}}) {
    options.start = start;
    CHECK(search(p, options).goals[0].value == Approx(1.6).margin(1e-12));
  }
}

TEST_CASE("search: a problem whose parts do not fit together is refused", "[search]") {
  auto p = of(kFree, {}, {cheapest({1, 2})});
  CHECK_THROWS_AS(search(p), std::invalid_argument);
  p = of(kFree, {{line({1, 2, std::nan("")}), 0, 1, 0}}, {});
  CHECK_THROWS_AS(search(p), std::invalid_argument);
  p = of(kFree, {}, {Goal{line({0, 0, 0}), {{line({1, 0, 0}), 0, -1}}, 0}});
  CHECK_THROWS_AS(search(p), std::invalid_argument);
  p = of(kFree, {}, {});
  p.steps = 0;
  CHECK_THROWS_AS(search(p), std::invalid_argument);
}

TEST_CASE("search: statuses have their words", "[search]") {
  CHECK(std::string(word(Status::optimal)) == "optimal");
  CHECK(std::string(word(Status::feasible)) == "feasible");
  CHECK(std::string(word(Status::infeasible)) == "infeasible");
  CHECK(std::string(word(Status::undecided)) == "undecided");
}
