#pragma once

#include <span>
#include <vector>

#include "solver/explain/relax_wish.hpp"

namespace barwright::explain {

/// How far a set of wishes must give way together.
struct GiveWay {
  optimise::Status status = optimise::Status::undecided;  ///< optimal: `by` is the least, proved
  double by = 0;                                          ///< noticeable steps
  std::vector<int> steps;
};

/// The least t is told apart from anything smaller by more than this share of a noticeable step.
inline constexpr double kGiveWayGrain = 1e-6;

/// Returns by how many oils or steps a blend breaks a rule (oil_must: 1 when the oil is out).
int broken_by(const optimise::Problem& problem, const Rule& rule, std::span<const int> steps);

/// Returns the least t such that a blend exists once every measure and rule of the wishes named
/// gives way by t of its noticeable steps (rules by whole oils or steps). Found by halving: the
/// upper end is always a blend in hand, the lower end always a proof that there is none.
/// The wishes must be `complete`, and the problem without a blend.
GiveWay give_way(const optimise::Problem& problem, const Wishes& all, std::span<const int> which,
                 const optimise::SearchOptions& options);

}  // namespace barwright::explain
