// More time or work never loses a blend, and never makes it worse.
#include <catch2/catch.hpp>

#include "tests/solver/jobs/brief_testing.hpp"
#include "tests/solver/jobs/every_weighing.hpp"

using namespace barwright;
using namespace barwright::formulate;
using namespace barwright::jobs;
using namespace barwright::optimise;

namespace {

std::string library_brief(const std::string& goal, const std::string& scale) {
  return "brief: hard\noils-from: library\ncompared-with: {name: a common bar, superfat: 5 %, "
         "blend: "
         "{olive: 40 %, palm: 30 %, coconut: 25 %, castor: 5 %}}\nwant: {lather: no less, "
         "conditioning: no more than 2 below, keeping: no less}\n" +
         goal +
         "limits: {oils: at most 6}\nlye: {superfat: 5 %}\nscale: {oils: 1 g, lye: " + scale +
         "}\n";
}

// The first goal's number of the blend as it is weighed, minimised.
double worth(const BlendJob& job, const BlendResult& result) {
  Assumed own = result.assumed;
  own.settings = result.settings;
  own.held_back.clear();
  const Formulation formulation = formulation_of(job, own);
  return formulation.problem.goals.front().at(formulation.problem.shares(result.answer.steps));
}

}  // namespace

TEST_CASE("a ladder of work: what less work finds, more work never loses", "[superfat][search]") {
  int rungs = 0, unproved = 0;
  for (const std::string scale : {"0.1 g", "1 g"}) {
    for (const std::string goal :
         {"best: most hardness\n", "best: least quickness\n",
          "best: {nearest to: {hardness: 60, lather: 40, conditioning: 55, keeping: 60}}\n"}) {
      const BlendJob job = barwright::testing::job_of(library_brief(goal, scale));
      double best = kInfinity;
      for (std::uint64_t work = 100'000; work < 400'000'000; work *= 3) {
        Allowance allowance{.most = work};
        SearchOptions options;
        options.allowance = &allowance;
        const BlendResult result = find_blend(job, options);
        CAPTURE(scale, goal, work, int(result.answer.status), result.answer.reason);
        if (best < kInfinity) REQUIRE(result.has_blend());
        if (!result.has_blend()) continue;
        const double value = worth(job, result);
        // Settings of a blend may move between passes by what no hand can tell.
        CHECK(value <= best + 0.05);
        best = std::min(best, value);
        ++rungs;
        unproved += result.answer.status == Status::feasible;
        if (result.answer.status == Status::optimal) break;
      }
      CHECK(best < kInfinity);
    }
  }
  CHECK(rungs > 10);
  CHECK(unproved > 5);
}

TEST_CASE("a wish that rounding misses by less than a hundredth of a step is kept", "[superfat]") {
  int missed = 0;
  for (std::uint64_t seed = 1; seed <= 200 && missed < 5; ++seed) {
    BlendJob job = barwright::testing::small_job(
        seed, {.coarse = false, .may_be_low = false, .scale = "{oils: 5 g, lye: 0.1 g}"});
    job.brief.make->oils_grams = 1030;  // a step of 5 % is 51.5 g
    const BlendResult result = find_blend(job, {});
    if (result.answer.status != Status::optimal) continue;
    for (const auto& verdict : result.verdicts) {
      CHECK(verdict.missed == 0);
      if (verdict.value < verdict.low - 1e-6) ++missed;  // by the grams; kept all the same
    }
    CHECK(barwright::testing::own_value(job, result.answer.steps, 1030));
  }
  CHECK(missed > 0);
}
