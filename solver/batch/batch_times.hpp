#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/bench/gel.hpp"
#include "core/chemistry/heat.hpp"
#include "solver/batch/batch_plan.hpp"

namespace barwright::batch {

/// A lye pot as it warms and cools.
struct PotTimes {
  std::string name;          ///< "lye pot", or the part's name
  double grams = 0;          ///< of solution
  double fresh_celsius = 0;  ///< the moment it is made, no loss
  core::IcePlan ice;
  bool in_ice = false;  ///< the alkali goes into something frozen
};

/// A part's temperatures and times. Hours count from when the step before is done.
struct PartTimes {
  double oils_celsius = 0, lye_celsius = 0;  ///< planned
  bool oils_said = false, lye_said = false;  ///< by the maker; else ours
  bool lye_lowered = false;                  ///< the maker's was warmer than this lye may or can be
  double batter_celsius = 0;
  double solid_share = 0;    ///< of the fats, as batter (poured, thick trace) or creamed
  double clear_celsius = 0;  ///< warm enough for no false trace
  double firm_celsius = 0, soft_celsius = 0;  ///< creamed fats: coolest and warmest that whip
  bool solids_fit = true;                     ///< as the method wants them
  bool solids_near = false;             ///< creamed fats: fits only within the doubt of the figures
  std::optional<double> lye_air_hours;  ///< fresh lye to planned, on the bench
  std::optional<double> lye_bath_hours;  ///< the same in a cold bath
  std::optional<double> oils_air_hours;  ///< melted oils to planned
  std::optional<double> oils_bath_hours;
  double melt_celsius = 0;  ///< all clear, and a margin
  double working_minutes = 0, working_least = 0, working_most = 0;
  double cut_hours = 0;   ///< firm enough to cut
  bool salt_bar = false;  ///< cut_hours is practice, and past kSaltBarCrumbles it breaks
  int cure_weeks = 0;
  double water_at_cut = 0;  ///< mass fraction
};

inline constexpr double kSaltBarCut = 2, kSaltBarCrumbles = 5;  ///< h, common practice, no source

/// A figure of the trade set beside ours.
struct TradeCheck {
  std::string what;
  std::string trade;  ///< common practice, no source
  std::string ours;
  std::string why;  ///< where they differ; empty: they agree
};

struct BatchTimes {
  double room_celsius = 20;
  double bath_celsius = 8;  ///< cold bath with some ice, judgement
  std::vector<PotTimes> pots;
  std::vector<PartTimes> parts;  ///< as BatchPlan::parts
  core::GelOutlook gel;          ///< of the body in its largest mould
  bool covered = false;
  /// From pouring until the body holds a fingertip mark and is below 35 C: when a topping may go
  /// on.
  double topping_hours = 0;
  std::vector<TradeCheck> checks;
  std::vector<core::Note> notes;
};

/// Returns the cure of a batch, h: the longest its blends need, or the maker's own where that is
/// longer. Sheet, make, release and calendar all go by it.
double cure_hours(const BatchPlan& plan, const BatchTimes& times);

/// Returns temperatures and times of a batch. All are estimates: see the constants' marks.
BatchTimes times_of(const BatchPlan& plan);

}  // namespace barwright::batch
