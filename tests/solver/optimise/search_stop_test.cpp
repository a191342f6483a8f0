#include <algorithm>
#include <atomic>
#include <catch2/catch.hpp>
#include <chrono>
#include <thread>

#include "solver/optimise/checker.hpp"
#include "solver/optimise/search.hpp"
#include "tests/solver/optimise/instances.hpp"
#include "tests/solver/optimise/unseen.hpp"

using namespace barwright::optimise;

// The flag goes up from another thread in the middle of a search that would go on for hours: 120
// oils in steps of a tenth of a per cent. Nothing asserted depends on when it goes up.
TEST_CASE("search: stopped by hand it keeps the best so far, with a bound", "[search]") {
  barwright::testing::InstanceSpec spec;
  spec.seed = 3;
  spec.oils = 120;
  spec.most_oils = 6;
  spec.steps = 1000;
  spec.least = 40;
  spec.ranges = 0;
  spec.cost_ceiling = false;
  spec.wish = barwright::testing::Wish::nearest_in_feel;
  const Problem problem = barwright::testing::make_instance(spec);

  SearchOptions options;
  options.start.assign(problem.oils.size(), 0);  // the six largest stocks, one after the other
  std::vector<std::size_t> order(problem.oils.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return problem.oils[a].most > problem.oils[b].most;
  });
  int left = problem.steps;
  for (std::size_t k = 0; k < 6 && left > 0; ++k) {
    options.start[order[k]] = std::min(left, problem.oils[order[k]].most);
    left -= options.start[order[k]];
  }
  REQUIRE(check_steps(problem, options.start).empty());

  std::atomic<bool> stop{false};
  options.stop = &stop;
  // Only so that a search that does not stop fails here instead of hanging.
  options.deadline = std::chrono::steady_clock::now() + std::chrono::minutes(10);
  std::thread hand([&] {
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
    stop = true;
  });
  const Answer answer = search(problem, options);
  hand.join();
  CHECK(answer.status == Status::feasible);
  CHECK(answer.reason.find("stopped by hand") == 0);
  REQUIRE(check_steps(problem, answer.steps).empty());
  REQUIRE(answer.goals.size() == 1);
  CHECK(answer.goals[0].value <= problem.goals[0].at(problem.shares(options.start)));
  CHECK(answer.goals[0].value == problem.goals[0].at(problem.shares(answer.steps)));
  CHECK(answer.goals[0].bound < answer.goals[0].value);
}

TEST_CASE("search: at most so many parts of the tree, the same every time", "[search]") {
  barwright::testing::InstanceSpec spec;
  spec.seed = 3;
  spec.wish = barwright::testing::Wish::nearest_in_feel;
  const Problem problem = barwright::testing::make_instance(spec);
  const Answer whole = search(problem);
  REQUIRE(whole.status == Status::optimal);
  SearchOptions options;
  options.most_nodes = 500;
  REQUIRE(whole.stats.nodes > 2 * options.most_nodes);
  const Answer once = search(problem, options), again = search(problem, options);
  CHECK(once.status == Status::feasible);
  CHECK(once.steps == again.steps);
  CHECK(once.goals[0].bound == again.goals[0].bound);
  CHECK(once.goals[0].bound <= whole.goals[0].value);
  CHECK(once.goals[0].value >= whole.goals[0].bound);
  CHECK(once.stats.nodes < whole.stats.nodes);
  CHECK(once.reason.find("the allowance was used up") == 0);
}

TEST_CASE("search: an allowance ends several searches together, the same every time", "[search]") {
  barwright::testing::InstanceSpec spec;
  spec.seed = 3;
  spec.wish = barwright::testing::Wish::nearest_in_feel;
  const Problem problem = barwright::testing::make_instance(spec);
  const Answer whole = search(problem);
  REQUIRE(whole.status == Status::optimal);
  REQUIRE(whole.stats.work > 0);
  const auto run = [&] {
    Allowance outer{whole.stats.work, nullptr}, inner{whole.stats.work / 2, &outer};
    SearchOptions options;
    options.allowance = &inner;
    const Answer first = search(problem, options);
    CHECK(first.status == Status::feasible);
    CHECK(first.reason.find("the allowance was used up") == 0);
    CHECK(fits(problem, first.steps));
    CHECK(first.goals[0].bound <= whole.goals[0].value);
    // It ends soon after it is used up, and what is spent within is spent outside.
    CHECK(inner.used < whole.stats.work * 6 / 10);
    CHECK(outer.used == inner.used);
    CHECK(first.stats.work == inner.used);
    // Nothing is left for another search; it still hands back what it starts from.
    options.start = first.steps;
    const Answer second = search(problem, options);
    CHECK(second.steps == first.steps);
    CHECK(second.stats.nodes < 5);
    return first;
  };
  const Answer once = run(), again = run();
  CHECK(once.steps == again.steps);
  CHECK(once.goals[0].bound == again.goals[0].bound);
  CHECK(once.stats.work == again.stats.work);
}

TEST_CASE("search: at the known floor of a curved goal there is nothing left to prove",
          "[search]") {
  barwright::testing::UnseenSpec spec;
  spec.oils = 120;
  spec.most_oils = 8;
  spec.asked = barwright::testing::Asked::nearest_in_feel;
  spec.can_be_met = true;
  for (std::uint64_t seed = 1; seed < 20; seed += 2) {
    spec.seed = seed;
    const Problem problem = barwright::testing::make_unseen(spec);
    SearchOptions options;
    options.start = barwright::testing::hidden_blend(spec);
    REQUIRE(fits(problem, options.start));
    REQUIRE(problem.goals[0].at(problem.shares(options.start)) < 1e-12);
    const Answer answer = search(problem, options);
    CHECK(answer.status == Status::optimal);
    CHECK(answer.goals[0].value < 1e-12);
    CHECK(answer.stats.nodes < 5);
  }
}
