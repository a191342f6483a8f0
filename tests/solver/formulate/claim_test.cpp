// What is said of an answer is what its numbers say, on the maker's scale.
#include "solver/formulate/claim.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "solver/explain/prices.hpp"
#include "solver/formulate/goal_search.hpp"
#include "solver/formulate/subject.hpp"
#include "targets/model/words.hpp"
#include "tests/solver/jobs/brief_testing.hpp"

using namespace barwright;
using namespace barwright::explain;
using namespace barwright::formulate;
using namespace barwright::jobs;
using namespace barwright::optimise;
using barwright::testing::job_of;

namespace {

std::string brief(const std::string& goal, const std::string& rest = "") {
  return "brief: claim\noils-from: [olive, coconut, palm, high-oleic sunflower, rice bran, castor, "
         "sunflower, lard]\n"
         "compared-with: {name: a common bar, superfat: 5 %, blend: {olive: 40 %, palm: 30 %, "
         "coconut: 25 %, castor: 5 %}}\n"
         "want: {lather: no more than 10 below, conditioning: no more than 6 below}\n" +
         goal + "limits: {oils: at most 5, steps: 5 %}\nmake: {oils: 3 kg}\n" + rest;
}

}  // namespace

TEST_CASE("proved means within the tie on the maker's scale, for every property and level",
          "[claim]") {
  for (const auto property : targets::all_properties()) {
    if (!targets::PropertyModel::has_form(property)) continue;
    for (const std::string goal : {"most ", "least "}) {
      for (const std::string level : {"typical", "likely", "worst-case"}) {
        const std::string name(targets::name(property));
        INFO(goal + name + ", " + level);
        // Something for the tie to be spent on: without olive at any price.
        SearchOptions few;
        few.most_nodes = 20000;
        const BlendJob job = job_of(brief("best: " + goal + name + "\nthen: least iodine value\n",
                                          "sureness: " + level + "\n"));
        const BlendResult found = find_blend(job, few);
        if (found.answer.status != Status::optimal) continue;
        const Claim claim = claim_of(found.formulation, found.answer);
        CHECK(claim.proved);
        CHECK(claim.tie == Approx(0.1 * targets::noticeable(property)));
        CHECK(std::abs(claim.value - claim.bound) <= claim.tie + 1e-5);
      }
    }
  }
}

TEST_CASE("a curved score gives way by no more than the tie, and says what it bought", "[claim]") {
  const BlendJob job = job_of(brief("best: most keeping\nthen: use up olive\n"));
  const BlendResult found = find_blend(job, {});
  REQUIRE(found.answer.status == Status::optimal);
  const Claim claim = claim_of(found.formulation, found.answer);
  const double best = [&] {  // without anything after it
    Formulation alone = found.formulation;
    alone.problem.goals.resize(1);
    const Answer answer = search_goals(alone, {});
    return alone.goals[0].shown(answer.goals[0].value);
  }();
  CHECK(claim.value <= best + 1e-9);
  CHECK(claim.value >= best - claim.tie - 1e-6);
  if (claim.value < best - 1e-6) {
    REQUIRE(claim.bought);
    CHECK(claim.bought->goal == "use up olive");
    CHECK(claim.bought->gave_way == Approx(best - claim.value).margin(1e-6));
    CHECK(claim.bought->value > claim.bought->instead);
    CHECK(bought_words(claim).find("into 'use up olive'") != std::string::npos);
  }
}

TEST_CASE("the price of a wish is told on the scale the goal is told on", "[claim]") {
  // 'most keeping' under a ceiling on working time: one step given way, solved again by hand.
  for (const std::string goal : {"best: most keeping\n", "best: {nearest: {hardness: 95}}\n"}) {
    const BlendJob job = job_of(
        "brief: price\noils-from: [olive, coconut, palm, high-oleic sunflower, castor, lard]\n"
        "compared-with: {name: a common bar, superfat: 5 %, blend: {olive: 40 %, palm: 30 %, "
        "coconut: 25 %, castor: 5 %}}\nwant: {lather: no less, conditioning: at least 4 above}\n" +
        goal + "limits: {oils: at most 4}\nmake: {oils: 3 kg}\n");
    Formulation f = find_blend(job, {}).formulation;
    f.problem.goals.resize(1);
    const Answer best = search(f.problem, {});
    REQUIRE(best.status == Status::optimal);
    int seen = 0;
    for (const Price& price : find_prices(f.problem, f.wishes, best)) {
      if (!price.binds || price.what == Change::What::rule) continue;
      ++seen;
      const auto all = complete(f.problem, f.wishes);
      const Measure& m = all.measures.at(static_cast<std::size_t>(price.index));
      Problem looser = without(f.problem, all, std::span(&price.wish, 1));
      const bool floor = price.what == Change::What::floor;
      add_range(looser, m, floor ? m.low - m.noticeable : m.low,
                floor ? m.high : m.high + m.noticeable);
      const Answer again = search(looser, {});
      const auto& shown = f.goals.front().shown;
      CHECK(
          std::abs(price.looser.change) ==
          Approx(std::abs(shown(again.goals[0].value) - shown(best.goals[0].value))).margin(1e-6));
    }
    CHECK(seen > 0);
  }
}

TEST_CASE("the nearest in feel is within the tie that is named, in steps", "[claim]") {
  const BlendJob job = job_of(brief("best: nearest in feel\nthen: least hardness\n"));
  const BlendResult found = find_blend(job, {});
  REQUIRE(found.answer.status == Status::optimal);
  const Claim claim = claim_of(found.formulation, found.answer);
  CHECK(claim.tie == Approx(0.1));
  CHECK(claim.value <= claim.bound + claim.tie + 1e-6);
}

TEST_CASE("numbers that lie apart are not proved, whatever the search said", "[claim]") {
  Formulation f;
  f.problem.goals.resize(1);
  f.problem.goals[0].give = 0.5;
  f.goals.push_back({"most hardness", "points", [](double v) { return -v; }, false});
  Answer answer;
  answer.status = Status::optimal;
  answer.goals = {{-60.0, -60.5}};
  CHECK(claim_of(f, answer).proved);
  answer.goals = {{-60.0, -60.6}};
  CHECK_FALSE(claim_of(f, answer).proved);
  keep_to_the_numbers(f, answer);
  CHECK(answer.status == Status::feasible);
}
