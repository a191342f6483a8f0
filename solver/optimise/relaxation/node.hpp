#pragma once

// A part of the search: bounds on every oil's steps, which side of each bend is taken, and what an
// engine needs to start where the parent ended. `Region` is the part being worked on, with its
// rows; a `Node` is a part put aside.

#include <cstdint>
#include <vector>

#include "solver/optimise/relaxation/relax.hpp"

namespace barwright::optimise {

/// An oil is out (most 0), in (least >= its own least) or still free (0, or its least to most).
struct Region {
  Region(const Problem& problem, const Relaxation& relaxation);

  int oils = 0;
  int columns = 0;
  std::vector<double> low, high;          ///< per column; whole for oils
  std::vector<std::vector<double>> rows;  ///< coefficients; the count row among them
  std::vector<double> row_low, row_high;
  std::vector<Piece> pieces;  ///< per bend
  std::vector<int> least;     ///< per oil, when used

  // At most K oils, projected: sum over free oils of w / most <= K - (oils in). Scaled by
  // count_scale.
  int count_row = -1;
  double count_scale = 1;
  int most_oils = 0;
  int in = 0;                             ///< oils that are in
  std::vector<double> count_coefficient;  ///< of a free oil

  /// Writes the count row anew from the oils' present most steps.
  void write_count_row();

  /// Whether an oil's bounds have crossed.
  bool is_void() const;
  bool is_in(int oil) const { return low[std::size_t(oil)] > 0; }
  bool is_free(int oil) const { return low[std::size_t(oil)] == 0 && high[std::size_t(oil)] > 0; }
  bool is_fixed(int oil) const { return low[std::size_t(oil)] == high[std::size_t(oil)]; }
};

/// The engine's resting point: which columns and rows are basic.
using Basis = std::vector<std::int16_t>;

/// How a part came to be, for the rule that chooses splits to learn from.
struct Lesson {
  int oil = -1;
  bool rounding = false;  ///< a whole number was split; otherwise presence
  bool down = false;
  double distance = 0;  ///< how far the parent's point lay outside
};

struct Node {
  double bound = -kInfinity;
  int depth = 0;
  std::uint64_t order = 0;     ///< of creation: breaks ties
  std::vector<int> low, high;  ///< per oil
  std::vector<Piece> pieces;
  Basis basis;
  Lesson lesson;
};

}  // namespace barwright::optimise
