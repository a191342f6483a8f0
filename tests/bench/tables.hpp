#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "tests/solver/optimise/instances.hpp"
#include "tests/solver/optimise/unseen.hpp"

namespace barwright::bench {

/// CPU seconds of this thread: other programs on the machine do not count.
double cpu_seconds();

struct Series {
  std::vector<double> values;
  void add(double v) { values.push_back(v); }
  double at(double quantile) const;  ///< 0..1; 0 of an empty series
};

/// One line: our times and CBC's for `count` instances of this kind, their ratio, and whether every
/// optimum agreed. cbc_seconds: CBC's limit per instance; a run into it counts with its time.
void against_cbc(const std::string& name, barwright::testing::InstanceSpec spec, int count,
                 double cbc_seconds);
/// One line: plain briefs as the house answers them, their manners in the problem; see against_cbc.
void manners_against_cbc();
/// One line: our times alone; limit: seconds per instance.
void alone(const std::string& name, barwright::testing::InstanceSpec spec, int count, double limit);
/// One line: problems as briefs are (unseen.hpp), each with so much work (Allowance). Odd seeds are
/// for tuning, even ones are the check.
void unseen(const std::string& name, barwright::testing::UnseenSpec spec, int count, bool even,
            std::uint64_t work);
/// One line: CPU time of a whole command, from start to exit; the least of five runs.
void command(const std::string& line);
/// One line: solver::trade_off at 21 points, the ends included: the price against the first range's
/// property, or the feel against the price.
void curve(const std::string& name, barwright::testing::InstanceSpec spec, bool feel, int count);
/// One line: the instances as they are beside the same at worst-case lots, and all three levels in
/// ranges wide enough for worst lots, as ratios of the
/// times.
void sureness(const std::string& name, barwright::testing::InstanceSpec spec, int count);
/// One line: a blend of six oils made from 10,000 drawn lots and judged on four wishes.
void lots();
/// One line: every set of oils with NLopt in each, against one search. A slow one: 40 oils
/// choose 5.
void every_set(int oils, int most_oils, int count);
/// Largest resident memory of this process so far, MB.
double peak_memory();

}  // namespace barwright::bench
