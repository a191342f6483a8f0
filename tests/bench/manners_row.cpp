// Plain briefs as the house answers them, their manners in the problem, against CBC with the same
// rules.
#include <fmt/format.h>

#include <cmath>
#include <cstdio>
#include <stdexcept>

#include "solver/jobs/mannerly.hpp"
#include "tests/bench/tables.hpp"
#include "tests/manners/cases.hpp"
#include "tests/solver/optimise/outside_cbc.hpp"

namespace barwright::bench {

void manners_against_cbc() {
  using barwright::testing::CbcAnswer;
  Series ours, theirs, ratio, rows;
  int differ = 0, unproved = 0, late = 0, curved = 0;
  for (const auto& plain : tests::cases()) {
    const jobs::Mannerly found = jobs::find_mannerly(tests::job_of(plain), {}, false);
    if (!found.result.has_blend()) continue;
    optimise::Problem problem = jobs::formulation_of(*found.job, found.result.assumed).problem;
    problem.goals.resize(std::min<std::size_t>(problem.goals.size(), 1));
    if (problem.goals.empty() || !problem.goals.front().pulls.empty()) {
      ++curved;  // CBC takes linear goals
      continue;
    }
    problem.goals.front().tie = 0;
    optimise::Answer answer;
    double took = 0;
    for (int run = 0; run < 5; ++run) {  // the least: a first run pays for cold caches
      const double before = cpu_seconds();
      answer = optimise::search(problem);
      const double now = cpu_seconds() - before;
      took = run == 0 ? now : std::min(took, now);
    }
    const double before = cpu_seconds();
    CbcAnswer cbc;
    try {
      cbc = barwright::testing::solve_with_cbc(problem, 60);
    } catch (const std::logic_error&) {  // bends that CBC's form has no place for
      ++curved;
      continue;
    }
    const double cbc_took = cpu_seconds() - before;
    ours.add(1e3 * took);
    theirs.add(1e3 * cbc_took);
    ratio.add(cbc_took / took);
    rows.add(double(problem.limits.size()));
    unproved += answer.status != optimise::Status::optimal;
    if (cbc.said == CbcAnswer::Said::other)
      ++late;
    else
      differ += answer.goals.empty() || std::abs(answer.goals[0].value - cbc.value) >
                                            1e-6 * std::max(1.0, std::abs(cbc.value));
  }
  fmt::print(
      "{:<34} {:>4} ours ms {:>8.3f} p95 {:>8.3f} rows {:>4.0f} | CBC ms {:>8.2f} p95 {:>9.2f} | "
      "ratio {:>6.1f} p5 {:>6.1f} least {:>6.1f} | unproved {} CBC late {} differ {} curved {}\n",
      "plain briefs, manners in force", ours.values.size(), ours.at(.5), ours.at(.95), rows.at(.5),
      theirs.at(.5), theirs.at(.95), ratio.at(.5), ratio.at(.05), ratio.at(0), unproved, late,
      differ, curved);
  std::fflush(stdout);
}

}  // namespace barwright::bench
