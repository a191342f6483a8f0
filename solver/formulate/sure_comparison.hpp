#pragma once

#include <span>
#include <utility>
#include <vector>

#include "solver/formulate/known_bar.hpp"
#include "solver/formulate/sure_measure.hpp"
#include "solver/optimise/guards.hpp"
#include "targets/model/lots.hpp"
#include "targets/model/model.hpp"

namespace barwright::formulate {

/// Return a weighted, or the sum of two weightings of components.
targets::Weights times(const targets::Weights& weights, double factor);
targets::Weights plus(const targets::Weights& a, const targets::Weights& b);

/// What is drawn when two bars are compared: the lots, the model's constants, or both at once.
enum class Drawn { lots, constants, both };

/// sign * (bar - yardstick) of one property, as readings over the candidates' shares: on the inner
/// scale, divided by its half where the scale is curved. Lots of oils both bars hold are shared.
///
/// A property bends at most once: along (castor still helps) or at its cap, whichever is less. On
/// the side that has to be read low (the bar's, for a floor) both are kept; on the other any one is
/// safe, as its help counts for at most that. Where lots are drawn that one is the yardstick's own,
/// unless lots can carry the yardstick itself across the bend: then it is the side kept, so that
/// the maker's own bar is never less than itself.
class Comparison {
 public:
  Comparison(const targets::Subject& subject, double sign, const SureGround& ground,
             const KnownBar& yardstick);

  /// Returns the ways to read the difference; each must hold. Where the ground has a memo, from it.
  std::vector<optimise::Reading> ways(Drawn drawn) const;
  /// Returns the yardstick's own score, points, in every reading so drawn, at middle lots.
  std::vector<double> yardstick_scores(Drawn drawn) const;

  /// Returns the least and the most that lots can make of the yardstick's score, points.
  std::pair<double, double> yardstick_range() const;

 private:
  enum class Side { along, cap };
  /// Of the bar and of the yardstick.
  struct Sides {
    Side bar = Side::cap, known = Side::cap;
  };
  struct Line {
    targets::Weights weights;
    double constant = 0;
  };

  std::vector<optimise::Reading> worked_out(Drawn drawn) const;
  static Line line(const targets::PropertyForm& form, Side side, double factor);
  std::span<const targets::PropertyModel> models(Drawn drawn) const;
  targets::Composition yardstick_composition() const;
  bool keeps_bar_sides(const targets::PropertyForm& form) const;
  Side own_side(const targets::PropertyForm& form) const;
  Sides sides(Side kept, Side other, const targets::PropertyForm& form) const;
  bool may_cross(Side kept, Side own) const;
  optimise::Reading by_constants() const;
  optimise::Reading by_lots(const Sides& sides, Drawn drawn) const;
  void add(optimise::Readings& out, const targets::PropertyModel& model, const Sides& sides,
           bool extremes) const;
  optimise::LotReserve reserve_of(const Sides& sides) const;
  double kept(const targets::LotSample& sample, const targets::Weights& weights, bool most) const;
  optimise::Readings empty_readings() const;

  targets::Property property_;
  double sign_;
  const SureGround& ground_;
  const KnownBar& yardstick_;
  bool worst_;
  std::vector<double> there_;            ///< the yardstick's share of each candidate
  std::vector<const KnownPart*> apart_;  ///< its oils that are no candidates
  LotBook apart_book_;
  std::vector<targets::Composition> middles_, apart_middles_;  ///< where lots are not drawn
};

/// sign * a figure over the lots of one oil, in the figure's unit: its least and most, or its mean
/// and the reserves that a share of the lots needs below and above it.
struct FigureLots {
  double least = 0, most = 0, mean = 0;
  double below = 0, above = 0;
};
/// Returns what lots make of a figure each oil has by itself: saponification or iodine value,
/// unsaponifiable matter, a sum of acids. Without a sample the mean and reserves of the last two
/// stay 0.
FigureLots figure_lots(const targets::Subject& subject, double sign, const oils::Oil& oil,
                       const targets::LotRange& range, const targets::LotSample* sample,
                       double share);

/// Returns sign * (bar - yardstick) of a figure each oil has by itself (saponification and iodine
/// value, unsaponifiable matter, a sum of acids) as one reading, lots shared likewise.
optimise::Reading compare_figures(const targets::Subject& subject, double sign,
                                  const SureGround& ground, const KnownBar& yardstick);

}  // namespace barwright::formulate
