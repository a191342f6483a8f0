// Every blend of small briefs, weighed one by one: superfat belongs to the blend, not to the pass.
#include <catch2/catch.hpp>

#include "core/units/error.hpp"
#include "targets/model/words.hpp"
#include "tests/solver/jobs/every_weighing.hpp"

using namespace barwright;
using namespace barwright::jobs;
using namespace barwright::optimise;
using barwright::testing::SmallBrief;

namespace {

// What nobody can tell apart in the first goal: nothing of a price, a hundredth of a noticeable
// step of a property, the tie of `nearest` (a thirtieth of a step) and a hundredth.
double alike(const BlendJob& job) {
  const auto& goal = job.brief.goals.front();
  using Kind = targets::Goal::Kind;
  if (goal.kind == Kind::cheapest) return 1e-9;
  if (goal.kind == Kind::nearest) return 1.0 / 30 + 0.01;
  return 0.01 * targets::noticeable(goal.subject.property);
}

struct Count {
  int found = 0, none = 0, refused = 0, wrong = 0;
};

Count compare(const SmallBrief& kind, int seeds) {
  Count count;
  for (int seed = 1; seed <= seeds; ++seed) {
    const BlendJob job = barwright::testing::small_job(std::uint64_t(seed), kind);
    const double grams = *job.brief.make->oils_grams;
    const auto every = barwright::testing::weigh_every_blend(job, grams);
    CAPTURE(seed, every.blends, every.kept, every.best_steps);
    BlendResult result;
    try {
      result = find_blend(job, {});
    } catch (const core::Refusal& refusal) {
      INFO(refusal.what());
      CHECK_FALSE(every.best);
      ++(every.best ? count.wrong : count.refused);
      continue;
    }
    CAPTURE(int(result.answer.status), result.answer.steps, result.answer.reason);
    if (!every.best) {
      CHECK_FALSE(result.has_blend());
      CHECK(result.answer.status == Status::infeasible);
      ++(result.answer.status != Status::infeasible ? count.wrong : count.none);
      continue;
    }
    const auto ours = result.has_blend()
                          ? barwright::testing::own_value(job, result.answer.steps, grams)
                          : std::nullopt;
    const bool right =
        ours && result.answer.status == Status::optimal && *ours <= *every.best + alike(job);
    CAPTURE(ours.value_or(-1), *every.best);
    CHECK(right);
    ++(right ? count.found : count.wrong);
  }
  return count;
}

}  // namespace

TEST_CASE("a coarse lye scale: the answer is the best of every blend by its own superfat",
          "[superfat]") {
  const Count count = compare({}, 60);
  WARN(count.found << " found, " << count.none << " none, " << count.refused << " refused, "
                   << count.wrong << " wrong");
  CHECK(count.found > 20);
}

TEST_CASE("a fine lye scale: the same", "[superfat]") {
  const Count count = compare({.coarse = false}, 40);
  WARN(count.found << " found, " << count.none << " none, " << count.refused << " refused, "
                   << count.wrong << " wrong");
  CHECK(count.found > 15);
}

TEST_CASE("wishes hard to keep on a coarse scale: a blend or a no, both by weighing",
          "[superfat]") {
  const Count count = compare({.tight = true}, 40);
  WARN(count.found << " found, " << count.none << " none, " << count.refused << " refused, "
                   << count.wrong << " wrong");
  CHECK(count.none > 5);
}
