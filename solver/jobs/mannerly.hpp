#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "solver/formulate/manners.hpp"
#include "solver/jobs/blend_job.hpp"

namespace barwright::jobs {

/// What became of one manner.
struct MannerTold {
  enum class State {
    kept,      ///< without it no blend is better
    bound,     ///< without it a blend is better, by `price`
    gave_way,  ///< some or all of it: no blend keeps the wishes with it
  };
  const targets::Manner* manner = nullptr;
  State state = State::kept;
  std::string rule;      ///< as kept, its figures in
  bool dropped = false;  ///< gave way altogether
  /// bound: how the first goal changes without it, in the goal's unit as shown.
  std::optional<double> price;
  std::string unit;     ///< of `price`
  bool proved = false;  ///< the price is; else it is at least so much
};
const char* word(MannerTold::State state);

/// A brief answered as a maker would pour it.
struct Mannerly {
  std::shared_ptr<const BlendJob> job;  ///< with the manners kept in it
  BlendResult result;
  std::vector<MannerTold> manners;  ///< in force, as listed in targets/data/manners.yaml
  formulate::HeldTo held;           ///< what is not named is held to this bar
  /// A claim that kept all blends out, where nothing fits and it alone stands in the way; empty.
  std::string claim_in_the_way;
  double hours_to_cut = 0;  ///< of the blend, h
};

/// Returns the answer to a brief with the manners that fit: steps of 5, 2, 1, 0.5 % are tried in
/// turn; where none fits, manners give way one level at a time, the mildest first, before it is
/// said that nothing fits. Errors: as find_blend.
Mannerly find_mannerly(const BlendJob& job, const optimise::SearchOptions& options);

}  // namespace barwright::jobs
