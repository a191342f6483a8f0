#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/explain/conflict.hpp"
#include "solver/explain/fixes.hpp"
#include "solver/explain/purchases.hpp"
#include "solver/explain/reach.hpp"
#include "solver/jobs/blend_job.hpp"
#include "solver/jobs/written_ways.hpp"

namespace barwright::jobs {

/// What one pack of an oil to be bought is taken to hold, g (common practice, no source).
inline constexpr double kUsualPackGrams = 1000;

/// Why nothing fits.
struct No {
  explain::Conflict conflict;
  std::vector<explain::Reach> reach;
  explain::Fixes fixes;
  std::vector<TriedWay> ways;        ///< of `fixes`, those that open it weighed out
  std::optional<TriedWay> together;  ///< when no single wish opens the way
  explain::Purchases purchases;
  std::vector<std::string> purchase_names;  ///< of the oils the purchases index
};

/// Returns why nothing fits: what collides, how far each wish can be had, the ways out as they are
/// weighed, and what to buy.
No why_not(const BlendJob& job, const BlendResult& result, const oils::Library& library,
           const optimise::SearchOptions& search);

/// Returns whether a maker can change this wish at all: the house keeps a limit of its own (waxes),
/// past which no lye is weighed.
bool can_be_changed(const formulate::Formulation& formulation, int wish);

}  // namespace barwright::jobs
