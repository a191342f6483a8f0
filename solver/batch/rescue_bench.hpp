#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/lye/pot_of.hpp"
#include "solver/batch/batch_plan.hpp"
#include "solver/batch/rescue_slip.hpp"

namespace barwright::batch {

/// A pot of lye as it stands: its alkali as weighed, and the water it dissolves in.
struct LyePotState {
  std::vector<core::PotAlkali> alkali;
  double water = 0;   ///< g, plain water
  double weight = 0;  ///< g of solution the portions were weighed out of; only shared
  double alkali_grams() const;
  double sum() const { return alkali_grams() + water; }
};

/// One part as it stands at the bench, whatever the sheet said.
struct PartState {
  const PartPlan* plan = nullptr;
  core::InPot lines;   ///< fats, acids and additions that are in it
  LyePotState lye;     ///< its own; a shared pot's portion has no water here
  double portion = 0;  ///< g of solution; only shared
  bool lye_left_out = false;
  std::vector<WeighedAddition> apart;  ///< toppings and embeds: never in the pot
  bool touched = false;
};

/// A whole batch as it stands at the bench.
struct BenchState {
  const BatchPlan* plan = nullptr;
  std::vector<PartState> parts;
  LyePotState shared;         ///< empty without a shared pot
  bool alkali_moved = false;  ///< a slip reached alkali, its strength or its water
};

/// Returns the batch as the sheet says.
BenchState as_planned(const BatchPlan& plan);

/// Returns what meets in the part's pot. A shared lye is taken as strong as it may be: topped up to
/// its making weight, or not, whichever leaves more alkali in a portion.
core::Pot pot_of(const BenchState& bench, const PartState& part);

/// Returns the strength of the part's lye as its alkali dissolves (mass fraction of pure alkali).
double dissolving_strength(const BenchState& bench, const PartState& part);

/// Returns what the part's own lye weighs, what goes into it included, g.
double lye_grams(const PartState& part);

/// Returns the portion's weight basis: what the shared pot weighs when it is shared out, g.
double sharing_weight(const BenchState& bench);

}  // namespace barwright::batch
