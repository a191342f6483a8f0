// Ways out of a no, followed to the letter: each opens, and a hair less does not.
#include "solver/jobs/ways_out.hpp"

#include <catch2/catch.hpp>

#include "core/units/error.hpp"
#include "targets/model/words.hpp"
#include "tests/solver/jobs/brief_testing.hpp"
#include "tests/solver/jobs/every_weighing.hpp"

using namespace barwright;
using namespace barwright::explain;
using namespace barwright::formulate;
using namespace barwright::jobs;
using namespace barwright::optimise;
using barwright::testing::SmallBrief;

TEST_CASE("64 briefs without a blend: each way out opens as written, a hair less does not",
          "[superfat][ways-out]") {
  int none = 0, ways = 0, shut = 0, not_least = 0;
  for (std::uint64_t seed = 1; none < 64 && seed < 400; ++seed) {
    const BlendJob job = barwright::testing::small_job(seed, {.tight = true});
    BlendResult no;
    try {
      no = find_blend(job, {});
    } catch (const core::Refusal&) {
      continue;
    }
    if (no.answer.status != Status::infeasible) continue;
    ++none;
    REQUIRE_FALSE(no.slices.empty());
    const auto which = wish_ids(no.formulation.problem, no.formulation.wishes);
    const WaysOut out = ways_out(job, no, which, {});
    for (const Fix& fix : out.fixes.fixes) {
      const auto brief = barwright::testing::rewritten(job, no.formulation, fix, 0);
      if (!brief) continue;
      CAPTURE(seed, fix.wishes, fix.size, fix.proved);
      ++ways;
      const BlendResult opened = find_blend(*brief, {});
      const double grams = *job.brief.make->oils_grams;
      const bool open = opened.has_blend() && opened.answer.status == Status::optimal &&
                        barwright::testing::own_value(*brief, opened.answer.steps, grams);
      CHECK(open);
      shut += !open;
      if (!fix.proved) continue;
      const auto property =
          job.brief.wishes[std::size_t(no.formulation.asked[std::size_t(fix.wishes.front())].wish)]
              .subject.property;
      const auto less = barwright::testing::rewritten(job, no.formulation, fix,
                                                      0.03 * targets::noticeable(property));
      const bool closed = !barwright::testing::weigh_every_blend(*less, grams).best;
      CHECK(closed);
      not_least += !closed;
    }
  }
  WARN(none << " briefs without a blend, " << ways << " ways out, " << shut << " shut, "
            << not_least << " not the least");
  CHECK(none == 64);
  CHECK(ways > 35);
}
