// Ways out of a no where lots and doubt count, followed to the letter.
#include <catch2/catch.hpp>

#include "core/units/error.hpp"
#include "solver/explain/conflict.hpp"
#include "solver/jobs/ways_out.hpp"
#include "targets/model/words.hpp"
#include "tests/solver/jobs/brief_testing.hpp"
#include "tests/solver/jobs/every_blend.hpp"

using namespace barwright;
using namespace barwright::explain;
using namespace barwright::jobs;
using barwright::testing::every_kept;
using barwright::testing::rewritten;
using barwright::testing::Uniform;
using optimise::Status;

namespace {

struct Count {
  int none = 0, ways = 0, least = 0, alone = 0, collide = 0;
};

void follow(const BlendJob& job, const BlendResult& no, Count& count) {
  std::vector<Posed> posed;
  for (const auto& slice : no.slices) posed.push_back({&slice.problem, &slice.wishes});
  const Conflict conflict = find_conflict(posed);
  // The wishes are said to collide at the middle of each superfat; a blend that only weighing
  // keeps out may fit there.
  count.collide += conflict.proved;
  const auto which = wish_ids(no.formulation.problem, no.formulation.wishes);
  for (const Fix& fix : ways_out(job, no, which, {}).fixes.fixes) {
    const auto brief = rewritten(job, no.formulation, fix, 0);
    if (!brief) continue;
    CAPTURE(fix.wishes, fix.size, fix.proved);
    ++count.ways;
    CHECK_FALSE(every_kept(*brief).empty());
    const BlendResult opened = find_blend(*brief, {});
    CHECK(opened.answer.status == Status::optimal);
    if (!fix.proved) continue;
    ++count.least;
    const auto wish = std::size_t(no.formulation.asked[std::size_t(fix.wishes.front())].wish);
    const double hair = 0.03 * targets::noticeable(job.brief.wishes[wish].subject.property);
    CHECK(every_kept(*rewritten(job, no.formulation, fix, hair)).empty());
  }
  // Of the wishes that collide any one left out leaves a blend, the wishes that do not collide
  // apart.
  for (const int id : conflict.wishes) {
    if (!conflict.proved || !conflict.minimal) break;
    BlendJob without = job;
    without.brief.wishes.clear();
    for (const int other : conflict.wishes) {
      const int wish = no.formulation.asked[std::size_t(other)].wish;
      if (wish >= 0 && other != id)
        without.brief.wishes.push_back(job.brief.wishes[std::size_t(wish)]);
    }
    if (no.formulation.asked[std::size_t(id)].wish < 0) continue;  // a rule
    CAPTURE(id, conflict.wishes);
    CHECK_FALSE(every_kept(without).empty());
    ++count.alone;
  }
}

Count walk(const std::string& level, bool coarse, int noes) {
  Count count;
  for (std::uint64_t seed = 1; count.none < noes && seed < 2000; ++seed) {
    Uniform draw(seed);
    const BlendJob job =
        barwright::testing::drawn_job(draw, {"fewest oils", "", level, coarse, true});
    CAPTURE(seed, level, coarse);
    try {
      const BlendResult no = find_blend(job, {});
      if (no.answer.status != Status::infeasible) continue;
      ++count.none;
      follow(job, no, count);
    } catch (const core::Refusal&) {
      continue;
    }
  }
  WARN(level << (coarse ? ", coarse: " : ": ") << count.none << " without a blend, " << count.ways
             << " ways out, " << count.least << " of them the least, " << count.alone
             << " colliding wishes left out");
  return count;
}

}  // namespace

TEST_CASE("140 briefs at three levels without a blend: ways out open, a hair less does not",
          "[superfat][ways-out]") {
  for (const bool coarse : {false, true}) {
    for (const std::string level : {"typical", "likely", "worst-case"}) {
      const int noes = level == "typical" ? 40 : 15;
      const Count count = walk(level, coarse, noes);
      CHECK(count.none == noes);
      CHECK(count.ways > noes / 3);
      CHECK(count.alone > noes / 3);
      CHECK(count.collide >= (coarse ? noes - 2 : noes));
    }
  }
}
