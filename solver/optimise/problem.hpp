#pragma once

#include <functional>
#include <limits>
#include <memory>
#include <span>
#include <vector>

namespace barwright::optimise {

inline constexpr double kInfinity = std::numeric_limits<double>::infinity();

/// The one tolerance of the search and the checker: a limit holds when it is exceeded by no more
/// than kTolerance * max(1, largest absolute coefficient of its form). Stated here, once.
inline constexpr double kTolerance = 1e-9;

/// The one meaning of "gap closed": value - bound <= kGap * max(1, |value|), in the goal's own
/// unit.
inline constexpr double kGap = 1e-7;

/// weight * min(slope . x, cap)
struct Kink {
  double weight = 0;
  std::vector<double> slope;  ///< one per oil
  double cap = 0;
};

/// A concave function of the shares that planes can follow: what is left of a figure once lots and
/// doubt have taken their part. It may stand on its concave side only: in floors and in goals to be
/// made the most of with a weight above 0, the other way round below 0.
class Concave {
 public:
  Concave() = default;
  Concave(const Concave&) = delete;
  Concave& operator=(const Concave&) = delete;
  virtual ~Concave() = default;
  /// Returns its value at shares x.
  virtual double at(std::span<const double> x) const = 0;
  /// Writes the slopes (one per oil) of a plane that touches it at x and lies nowhere below it;
  /// returns the plane's value at no share at all.
  virtual double plane(std::span<const double> x, std::span<double> slope) const = 0;
  /// Returns a bound on every slope of every plane.
  virtual double steepest() const = 0;
  /// Returns a bound on how far two slopes of one plane differ: what moving shares changes at most.
  virtual double widest() const { return 2 * steepest(); }
  /// Returns about how many multiply-adds at() takes; plane() is taken to cost twice that.
  virtual std::size_t work() const = 0;
  /// Returns whether shares may move between oils a and b without a change.
  virtual bool same(std::size_t a, std::size_t b) const = 0;
};

/// weight * part(x)
struct Guard {
  double weight = 1;
  std::shared_ptr<const Concave> part;
};

/// A function of the shares x (fractions of total oil mass, one per candidate oil):
/// constant + linear . x + sum of kinks + sum of guards. Concave when every weight is >= 0.
struct Form {
  double constant = 0;
  std::vector<double> linear;  ///< one per oil
  std::vector<Kink> kinks;
  std::vector<Guard> guards = {};

  /// Returns the form's value at shares x.
  double at(std::span<const double> x) const;
  /// Returns max(1, largest absolute coefficient): what kTolerance is a multiple of.
  double scale() const;
  bool is_linear() const { return kinks.empty() && guards.empty(); }
};

/// Returns sum of shares times one figure per oil (e.g. saponification values, prices).
Form weighted_sum(std::span<const double> per_oil);

/// Returns factor * form.
Form scaled(Form form, double factor);

/// low <= form(x) <= high. `wish` is the caller's own number for the maker's wish behind it;
/// several limits may share one. A limit without a wish (-1) belongs to the house (never relaxed,
/// never blamed).
struct Limit {
  Form form;
  double low = -kInfinity;
  double high = kInfinity;
  int wish = -1;
};

/// How much of one candidate: out, or between `least` and `most` whole steps.
struct OilBounds {
  int least = 1;      ///< steps, when used; at least 1
  int most = 0;       ///< steps; 0 = barred
  bool must = false;  ///< pinned in: never out
};

/// weight * (form(x) - point)^2
struct Pull {
  Form form;
  double point = 0;
  double weight = 1;
};

/// The scale a maker reads a goal on, where that is another than the goal's value: a score that
/// bends, a distance that is searched squared. Both ways rise.
struct GoalScale {
  std::function<double(double value)> place;
  std::function<double(double place)> value;  ///< past an end of the scale: beyond every blend
};

/// What "best" means: minimise form(x) + sum of pulls. To maximise, negate.
struct Goal {
  Form form;
  std::vector<Pull> pulls;
  /// How far above its own best a later goal may push this one (0: not at all, beyond kTolerance),
  /// on the maker's scale.
  double give = 0;
  /// What nobody can tell apart, on the maker's scale: the goal counts as proved once no blend can
  /// be better by more than this. 0: kGap. Stated by whoever states the goal, never by the search;
  /// at most `give`, where that is not 0.
  double tie = 0;
  GoalScale scale = {};  ///< empty: the value itself

  /// Returns the value to be minimised at shares x.
  double at(std::span<const double> x) const;
  /// Returns where a value lies on the maker's scale: the less, the better.
  double placed(double value) const;
  /// Returns the value that lies `by` above this one on the maker's scale (below 0: under it).
  double moved(double value, double by) const;
};

/// What the search is asked: numbers only, units gone. Shares are w_i / steps, w_i whole, sum w =
/// steps.
struct Problem {
  int steps = 100;
  std::vector<OilBounds> oils;
  int most_oils = 0;  ///< at most this many oils; 0 = no limit
  std::vector<Limit> limits;
  std::vector<Goal> goals;  ///< first, then second, ...; none: any blend that fits

  /// Throws std::invalid_argument, saying which part, when vectors do not fit together, a number is
  /// NaN, a coefficient is infinite, a pull's weight is negative, a bound is below zero or a guard
  /// stands on its wrong side.
  void validate() const;
  /// Returns the shares of whole steps.
  std::vector<double> shares(std::span<const int> w) const;
};

}  // namespace barwright::optimise
