#pragma once

// Where to split a region. Pseudocosts (Benichou et al. 1971; the product rule of Achterberg 2007;
// both recalled): what leaving an oil out, taking it in, or rounding it has raised the bound by so
// far. A curved engine also knows what it would raise it by here, were nothing else to give way:
// both together give a smaller tree than either alone.

#include <span>
#include <vector>

#include "solver/optimise/relaxation/engine.hpp"

namespace barwright::optimise {

/// One side of a split: new bounds of an oil, or the piece of a bend.
struct Change {
  int oil = -1;
  double low = 0, high = 0;
  int bend = -1;
  Piece piece = Piece::open;
};

/// Two sides that together hold every blend of the region; the first is to be looked at first.
struct Split {
  Change first, second;
  Lesson first_lesson, second_lesson;
};

class Branching {
 public:
  explicit Branching(int oils);

  /// Whether v is whole, keeps least-if-used and the count of oils, up to rounding at kWhole.
  static bool is_whole(const Region& region, std::span<const double> v);
  /// Returns how to split a region whose relaxation ended at the engine's point, with the promising
  /// side first. plain: by what was learned alone.
  Split choose(const Region& region, const Engine& engine, bool plain) const;
  /// Returns a split that cuts some unfixed oil's range around whole steps w (v was whole).
  static Split any(const Region& region, std::span<const double> v);
  /// Learns that this side of a split raised the bound by `gain`.
  void learn(const Lesson& lesson, double gain);

 private:
  struct Record {
    double sum = 0;
    int count = 0;
  };
  double expect(const Lesson& lesson) const;
  std::vector<Record> records_[2][2];  // rounding, down
  Record all_[2][2];
};

/// A relaxation's value counts as whole when it is this near: the checker has the last word.
inline constexpr double kWhole = 1e-6;

}  // namespace barwright::optimise
