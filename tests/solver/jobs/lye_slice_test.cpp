// No blend is outside the limits of its own slice, and every blend has one.
#include "solver/formulate/lye_slice.hpp"

#include <catch2/catch.hpp>

#include "solver/jobs/weighed_parts.hpp"
#include "tests/solver/jobs/every_weighing.hpp"

using namespace barwright;
using namespace barwright::formulate;
using namespace barwright::jobs;
using namespace barwright::optimise;
using barwright::testing::SmallBrief;

namespace {

int belongs(const LyeGround& ground, const std::vector<LyeSlice>& slices,
            const Weighing::Weighed& weighed, const std::vector<double>& shares,
            const targets::BarSettings& about) {
  int in = 0;
  for (const LyeSlice& slice : slices) {
    if (slice.level != weighed.level || !slice.holds(weighed.need)) continue;
    ++in;
    for (const Limit& limit : lye_limits(ground, slice)) {
      const double value = limit.form.at(shares);
      CHECK(value >= limit.low - 1e-9);
      CHECK(value <= limit.high + 1e-9);
    }
    CHECK(settings_box(ground, slice, about).has(weighed.settings));
  }
  return in;
}

}  // namespace

TEST_CASE("every blend that can be weighed keeps the limits of its slice, however cut",
          "[superfat]") {
  barwright::testing::Uniform draw(11);
  int weighed = 0, raised = 0, refused = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const std::string scale = seed % 3 == 0 ? "{oils: 5 g, lye: 1 g}" : "";
    const BlendJob job = barwright::testing::small_job(seed, {.scale = seed % 2 ? "" : scale});
    Assumed assumed = first_assumptions(job);
    std::optional<Weighing> made;
    try {
      made.emplace(job, assumed);
    } catch (const core::Refusal&) {  // a scale too coarse for any of these oils
      continue;
    }
    Weighing& weighing = *made;
    const Problem problem = formulation_of(job, assumed).problem;
    std::vector<std::vector<LyeSlice>> cuts = {weighing.slices()};
    for (int cut = 0; cut < 4; ++cut) {
      std::vector<LyeSlice> finer;
      for (const LyeSlice& slice : cuts.back()) {
        const auto two = halves(weighing.ground(), slice);
        if (two.empty()) finer.push_back(slice);
        finer.insert(finer.end(), two.begin(), two.end());
      }
      cuts.push_back(std::move(finer));
    }
    for (int blend = 0; blend < 60; ++blend) {
      std::vector<int> steps(job.candidates.oils.size(), 0);
      for (int left = 20; left > 0;) {
        const int some = draw.whole(1, left);
        steps[std::size_t(draw.whole(0, int(steps.size()) - 1))] += some;
        left -= some;
      }
      bool usual = true;
      for (std::size_t i = 0; i < steps.size(); ++i)
        usual = usual && steps[i] <= problem.oils[i].most;
      if (!usual) continue;
      const auto& one = weighing.at(steps);
      if (one.refused) {
        ++refused;
        continue;
      }
      ++weighed;
      raised += one.level > 0;
      std::vector<double> shares;
      for (const int w : steps) shares.push_back(w / 20.0);
      CAPTURE(seed, steps, one.level, one.need);
      for (const auto& slices : cuts)
        CHECK(belongs(weighing.ground(), slices, one, shares, assumed.settings) == 1);
    }
  }
  CHECK(weighed > 500);
  CHECK(raised > 100);
  CHECK(refused > 0);
}
