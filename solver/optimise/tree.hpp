#pragma once

// Branch and bound over one goal: best bound first, each time plunging down until the region is
// proved to hold nothing better (Land and Doig 1960; recalled).

#include <functional>
#include <optional>
#include <vector>

#include "solver/optimise/answer.hpp"
#include "solver/optimise/relaxation/relax.hpp"
#include "solver/optimise/search.hpp"

namespace barwright::optimise {

struct TreeTask {
  const Problem* problem = nullptr;
  const Goal* goal = nullptr;
  const Relaxation* relaxation = nullptr;
  const SearchOptions* options = nullptr;
  /// Whether whole steps fit: the checker, and the earlier goals' ceilings.
  std::function<bool(std::span<const int>)> accept;
  std::vector<int> start;     ///< steps known to fit, or empty
  double floor = -kInfinity;  ///< known beforehand: no blend whatever is below
  /// What whole steps that were accepted are worth: nowhere below the goal's own value there.
  /// Empty: that value.
  std::function<double(std::span<const int>)> value = {};
  double beat = kInfinity;       ///< the value of a blend known elsewhere: only less is looked for
  const bool* enough = nullptr;  ///< set by `accept` or `value`: stop
  std::size_t goal_number = 0;   ///< as the options' watch is told
  double elsewhere = kInfinity;  ///< bound of what lies outside this tree
};

struct TreeResult {
  std::vector<int> steps;  ///< best found, empty: none
  double value = kInfinity;
  double bound = -kInfinity;  ///< proved: nothing that fits is below
  bool finished = false;      ///< the whole tree was seen; without steps: nothing fits
};

TreeResult grow_tree(const TreeTask& task, SearchStats& stats);

}  // namespace barwright::optimise
