#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace barwright::optimise {

/// What was proved. Errors are something else (exceptions).
enum class Status {
  optimal,     ///< the checker accepts the blend and no better one exists
  feasible,    ///< the checker accepts the blend; a better one is not excluded
  infeasible,  ///< proved: no blend fits
  undecided,   ///< stopped before either
};
const char* word(Status status);

/// Value of the blend told and proved bound of one goal (minimised). gap = value - bound >= 0; a
/// proved answer's gap is at most kGap * max(1, |value|), or on the maker's scale the goal's tie,
/// or its give where later goals have used it.
struct GoalValue {
  double value = 0;
  double bound = 0;
};

struct SearchStats {
  std::uint64_t nodes = 0;
  std::uint64_t cuts = 0;
  std::uint64_t work = 0;      ///< multiply-adds, about: see Allowance
  std::uint64_t polished = 0;  ///< calls of NLopt whose result the checker accepted
};

struct Answer {
  Status status = Status::undecided;
  std::vector<int> steps;        ///< whole steps per oil; empty without a blend
  std::vector<GoalValue> goals;  ///< one per goal of the problem that was reached
  /// The blend found best at the first goal alone, before later goals used what it gives; empty: it
  /// is `steps`.
  std::vector<int> best_at_first = {};
  std::string reason;      ///< one plain sentence: why this status
  bool cut_short = false;  ///< its end came before its proof, with a blend
  SearchStats stats;
};

}  // namespace barwright::optimise
