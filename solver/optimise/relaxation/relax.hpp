#pragma once

// What the search relaxes. A Problem speaks of shares, kinks and pulls; the engines below it know
// only columns between bounds, rows between bounds, a linear cost and squares of linear forms:
//
//   minimise  constant + cost . v + sum_j weight_j (g_j . v - point_j)^2
//   subject to  row_low <= A v <= row_high,  low <= v <= high,
//
// v = whole steps of each oil, then one column per bend that has to be modelled by itself.
// Three ways lead a kink weight * min(slope . x, cap) into it:
//  - on the concave side of a limit (a floor, all weights >= 0) the limit is the intersection of
//  the
//    planes that take either piece of each kink. They are added lazily, see violated_planes();
//  - elsewhere a column y stands for the minimum: y <= slope . x, y <= cap, and above the chord
//  over
//    the reach of slope . x. Branching on "slope . x <= cap" makes it exact: the link row
//    slope . x - y becomes 0, or y becomes cap. Both are changes of bounds only;
//  - a guard stands on its concave side only and is followed by touching planes, lazily; in a goal
//    a column of its own stands for it, kept above those planes;
//  - a curved goal that came earlier (its value is now a ceiling) is kept by tangent planes,
//  lazily.
// Every row is loosened by the checker's own tolerance, so that what a relaxation calls empty, the
// checker refuses as well.

#include <cstdint>
#include <span>
#include <vector>

#include "solver/optimise/problem.hpp"

namespace barwright::optimise {

/// coefficients . v between low and high.
struct Row {
  std::vector<double> a;
  double low = -kInfinity;
  double high = kInfinity;
};

/// weight * (g . v - point)^2
struct Square {
  std::vector<double> g;
  double point = 0;
  double weight = 1;
  double largest = 0;  ///< absolute coefficient
};

/// A kink with its own column: y = min(slope . w, cap), w in steps.
struct Bend {
  std::vector<double> slope;  ///< over the oils, per step
  double cap = 0;
  int column = -1;
  int link_row = -1;  ///< slope . w - y, between 0 and its most
};

/// What a bend is taken to be in a part of the search.
enum class Piece : signed char { open, slope, cap };

/// Earlier goals with the value they must keep.
struct Ceiling {
  const Goal* goal = nullptr;
  double most = kInfinity;
};

class Relaxation {
 public:
  /// Relaxes `goal` over the problem's limits and the ceilings; the count of oils is left out (it
  /// depends on the node, see node.hpp). Without `lazy_planes` every kink gets its own column.
  /// References are kept: they must outlive the relaxation.
  Relaxation(const Problem& problem, const Goal& goal, std::span<const Ceiling> ceilings,
             bool lazy_planes = true);

  int oils() const { return oils_; }
  int columns() const { return int(low.size()); }
  bool curved() const { return !squares.empty(); }

  /// Returns the goal's relaxed value at v.
  double value(std::span<const double> v) const;
  /// Returns rows that v breaks by more than `tolerance` (in a row whose largest coefficient is 1)
  /// though they hold for every blend that fits: planes of concave floors, tangents of curved
  /// ceilings.
  std::vector<Row> violated_planes(std::span<const double> v, double tolerance,
                                   double guard_tolerance) const;
  /// Returns about how many multiply-adds violated_planes takes (see Allowance).
  std::uint64_t planes_work() const;
  /// Returns the bend whose column is furthest from its kink at v, or -1 when all agree within
  /// tolerance.
  int loosest_bend(std::span<const double> v, std::span<const Piece> pieces,
                   double tolerance) const;

  double constant = 0;
  std::vector<double> cost;
  std::vector<double> low, high;  ///< per column, root bounds
  std::vector<Row> rows;          ///< largest coefficient 1; both sides finite
  std::vector<Square> squares;
  std::vector<Bend> bends;

 private:
  /// row . v + sign * (the form's kinks and guards, where named) >= floor
  struct Plane {
    std::vector<double> row;
    double floor;
    double sign;
    const Form* kinked;  ///< null: they have columns, which are in row
    const Form* guarded;
  };
  void add_plane(const Form& form, double sign, double floor, bool lazy_kinks);
  /// Gives the goal's guards a column, minimised, above their planes.
  void add_guarded_goal(const Form& form);
  int column_of(const Kink& kink);
  /// Writes form (in steps, kinks as columns) into a and returns its constant.
  double flatten(const Form& form, std::vector<double>& a);
  void add_row(std::vector<double> a, double row_low, double row_high);
  void add_limit(const Form& form, double limit_low, double limit_high, double slack);

  const Problem& problem_;
  int oils_ = 0;
  bool lazy_planes_ = true;
  std::vector<Plane> concave_;
  struct Curve {
    std::vector<double> linear;
    double constant;
    std::vector<Square> squares;
    double most;
    const Form* guarded;  ///< the goal's own form
  };
  std::vector<Curve> curves_;
};

/// Scales a row to a largest coefficient of 1 and gives each open side the most the columns' bounds
/// let it reach, so that every row has two finite sides.
void box_row(Row& row, std::span<const double> low, std::span<const double> high);

}  // namespace barwright::optimise
