// What is kept of lots and readings never changes a figure.
#include "solver/formulate/sure_memo.hpp"

#include <catch2/catch.hpp>

#include "solver/jobs/blend_job.hpp"
#include "tests/solver/jobs/brief_testing.hpp"

using namespace barwright;
using namespace barwright::jobs;

namespace {

BlendJob job_with(const std::string& oils, const std::string& bar, const std::string& level) {
  return barwright::testing::job_of(
      "brief: kept\noils-from: [" + oils +
      "]\ncompared-with: {name: a bar, superfat: 5 %, blend: {" + bar +
      "}}\nwant: {hardness: at least 1 above, lather: no less, keeping: no more than 4 below}\n"
      "best: most conditioning\nlimits: {steps: 5 %}\nsureness: " +
      level + "\n");
}

// Every limit's and goal's value at one blend.
std::vector<double> values(const BlendJob& job, double superfat) {
  formulate::Assumed assumed = first_assumptions(job);
  assumed.settings.superfat = superfat;
  const optimise::Problem problem = formulation_of(job, assumed).problem;
  const std::size_t oils = problem.oils.size();
  std::vector<double> shares(oils, 0.5 / double(oils - 1)), out;
  shares[0] = 0.5;
  for (const auto& limit : problem.limits) out.push_back(limit.form.at(shares));
  for (const auto& goal : problem.goals) out.push_back(goal.at(shares));
  return out;
}

}  // namespace

TEST_CASE("readings kept from another superfat, bar or set of oils are not taken for these",
          "[sureness]") {
  const auto memo = std::make_shared<formulate::SureMemo>();
  for (const std::string level : {"likely", "likely 80 %", "worst-case"}) {
    for (const std::string bar : {"olive: 70 %, coconut: 30 %", "olive: 60 %, coconut: 40 %"}) {
      for (const std::string oils : {"olive, coconut, castor", "olive, coconut, rapeseed"}) {
        BlendJob kept = job_with(oils, bar, level), anew = kept;
        kept.candidates.memo = memo;
        anew.candidates.memo = nullptr;
        for (const double superfat : {0.05, 0.08, 0.05}) {
          CAPTURE(level, bar, oils, superfat);
          CHECK(values(kept, superfat) == values(anew, superfat));
        }
      }
    }
  }
}
