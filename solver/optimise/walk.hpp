#pragma once

// Where a search stands in its tree: the part being looked at, how to move to a side of a split or
// to a part put aside, and the engine that is told of every move.

#include <memory>
#include <span>
#include <vector>

#include "solver/optimise/relaxation/branch.hpp"
#include "solver/optimise/relaxation/engine.hpp"
#include "solver/optimise/relaxation/node.hpp"

namespace barwright::optimise {

class Walk {
 public:
  /// `plain`: every part is solved from scratch, and like oils are walked one by one.
  Walk(const Problem& problem, const Relaxation& relaxation, bool plain);
  Walk(const Walk&) = delete;
  Walk& operator=(const Walk&) = delete;

  Region& region() { return region_; }
  /// Returns the whole problem's part, which every part put aside is bounded within.
  Region& root() { return root_; }
  Engine& engine() { return *engine_; }

  /// Moves to one side of a split.
  void apply(const Change& change, bool tell);
  /// Bounds one oil; returns whether it came in.
  bool set_oil(int oil, double low, double high, bool tell);
  /// Leaves the free oils out once as many are in as may be.
  void leave_out_rest(bool tell);
  /// Goes to a part put aside.
  void enter(const Node& node);
  /// Returns the present part, to be put aside at `depth` with this proved bound.
  Node here(double bound, int depth) const;
  /// Returns the other side of a split of it.
  Node beside(double bound, int depth, const Change& other) const;

  bool all_fixed() const;
  /// Returns whether a point breaks the bounds of an oil.
  bool outside(std::span<const double> v) const;

 private:
  const Relaxation& relaxation_;
  Region region_, root_;
  std::unique_ptr<Engine> engine_;
  bool plain_;
  std::vector<int> next_;  ///< per oil: the one that is out when this one is
};

}  // namespace barwright::optimise
