#pragma once

#include <string>
#include <vector>

#include "solver/batch/batch_times.hpp"

namespace barwright::batch {

/// One thing to do.
struct ClockStep {
  double minutes = 0;  ///< after work begins
  std::string part;    ///< empty: all
  std::string what;
  std::string sign;  ///< how one sees that it is done, or the temperature to wait for; may be empty
  bool lye = false;  ///< alkali goes into water
};

/// Returns the order of work, earliest first: the tasks that need longest start first, so that body
/// and topping are ready when they are wanted. Minutes are estimates (batch_times.hpp).
std::vector<ClockStep> clock_of(const BatchPlan& plan, const BatchTimes& times);

/// Returns "8:45" when the batch has a starting time, else "0:15 h".
std::string clock_text(const BatchPlan& plan, double minutes);
/// Returns the day these days after the bench date, "2027-05-01"; empty without one.
std::string day_after(const BatchPlan& plan, int days);

}  // namespace barwright::batch
