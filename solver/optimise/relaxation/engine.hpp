#pragma once

// What the tree asks of an engine that solves relaxations. The region belongs to the tree, which
// changes it and then tells the engine.

#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "solver/optimise/relaxation/node.hpp"

namespace barwright::optimise {

enum class Outcome {
  solved,   ///< point() is optimal for the relaxation, as far as floating point can tell
  cut_off,  ///< multipliers() put the region above the cutoff
  empty,    ///< multipliers() are a ray that should prove emptiness
  gave_up,  ///< neither; multipliers() are still as good as any
};

class Engine {
 public:
  virtual ~Engine() = default;
  /// Starts anew from the region, at the basis where given (empty: none). came_in: the oil that has
  /// left the count row since the basis was taken, or -1.
  virtual void load(const Basis& basis, int came_in) = 0;
  virtual Basis basis() const = 0;
  /// The region's bounds of a column or of a row have changed.
  virtual void column_changed(int column) = 0;
  virtual void row_changed(int row) = 0;
  /// The oil has left the count row (region already says so) and the row's ceiling has changed.
  virtual void left_count(int oil) = 0;
  /// Rows have been appended to the region.
  virtual void rows_added() = 0;

  virtual Outcome solve(double cutoff) = 0;
  virtual std::span<const double> point() const = 0;        ///< per column
  virtual std::span<const double> multipliers() const = 0;  ///< per row
  /// Per column: moving it by t from point() raises the goal by about stiffness * t^2, all else in
  /// balance. Below 0: this engine cannot tell.
  virtual double stiffness(int) const { return -1; }
  /// Multiply-adds so far, about: see Allowance.
  virtual std::uint64_t work() const = 0;
};

}  // namespace barwright::optimise
