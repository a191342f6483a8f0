#pragma once

#include "solver/batch/batch_rescue.hpp"
#include "solver/batch/rescue_bench.hpp"

namespace barwright::batch {

/// One part that is not as planned.
struct Damage {
  const BenchState& now;
  const BenchState& planned;
  std::size_t part = 0;
  core::Pot pot;
  core::RescueGoal goal;
  const BatchPlan& plan() const { return *now.plan; }
  const PartState& state() const { return now.parts[part]; }
  const PartState& before() const { return planned.parts[part]; }
};

/// Return ways out of too little fat (or too much alkali), best first: what was left out put back,
/// less lye out of its pot, alkali taken back while dry, the least fat that is enough; and of too
/// much fat: alkali. Every one meets the part's floor at its worst; none is more than can be
/// stirred in evenly.
std::vector<RescueFix> mend_with_fat(const Damage& damage);
/// Of the ways above only the one that comes before any water: alkali taken back while dry.
std::vector<RescueFix> mend_while_dry(const Damage& damage);
std::vector<RescueFix> mend_with_alkali(const Damage& damage);

}  // namespace barwright::batch
