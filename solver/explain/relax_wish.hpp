#pragma once

#include <functional>
#include <span>
#include <vector>

#include "solver/optimise/answer.hpp"
#include "solver/optimise/problem.hpp"
#include "solver/optimise/search.hpp"

namespace barwright::explain {

/// How far a wish is met, in the maker's unit, so that the wish can be restated at another level.
/// The contract: at(x) >= level exactly when form(level)(x) >= 0, and where `high` is finite
/// at(x) <= level exactly when form(level)(x) <= 0.
/// A linear score: form(level) = score - level. A ratio a/b with b > 0: a - level * b.
struct Measure {
  int wish = -1;
  double low = -optimise::kInfinity;  ///< as wished, the maker's unit
  double high = optimise::kInfinity;
  /// The least change worth noticing, the maker's unit: what makes changes to unlike wishes
  /// comparable, and one step of a price.
  double noticeable = 1;
  std::function<optimise::Form(double level)> form;
  std::function<double(std::span<const double> x)> at;
  bool shifts = false;  ///< form(level) = form(0) - level: one search finds an extreme
  /// Which ends the form can stand at: a sure measure keeps one, and a wish with two has two.
  enum class Ends { both, floor, ceiling } ends = Ends::both;
};

enum class RuleKind {
  most_oils,  ///< at most `bound` oils
  oil_least,  ///< `oil`, when used, at least `bound` steps
  oil_most,   ///< `oil` at most `bound` steps; 0 = barred
  oil_must,   ///< `oil` is never out
};

/// A wish that sits in Problem::most_oils or OilBounds rather than in a limit. Where several rules
/// make one bound (a cap and the stock), list all of them, those of the house with wish -1: a bound
/// falls back to the next one when the wish that made it is dropped.
struct Rule {
  int wish = -1;
  RuleKind kind = RuleKind::most_oils;
  int oil = -1;
  int bound = 0;          ///< oils or steps
  double noticeable = 1;  ///< the same unit as bound
};

/// All that the maker asked, beside the numbers of the Problem. A wish of a limit without a measure
/// is measured by the limit's own form (see complete).
struct Wishes {
  std::vector<Measure> measures;
  std::vector<Rule> rules;
};

/// Returns the measure of a limit by its own form, in the form's unit.
Measure measure_of(const optimise::Limit& limit, double noticeable = 1);

/// Returns the wishes with a measure for every limit that has a wish but no measure yet.
Wishes complete(const optimise::Problem& problem, const Wishes& wishes);

/// Returns the wish numbers in use (>= 0), ascending, each once.
std::vector<int> wish_ids(const optimise::Problem& problem, const Wishes& wishes);

/// Returns the problem without the limits and rules of the wishes named.
optimise::Problem without(const optimise::Problem& problem, const Wishes& wishes,
                          std::span<const int> dropped);

/// Returns the problem without any wish but those named; the limits of the house stay.
optimise::Problem with_only(const optimise::Problem& problem, const Wishes& wishes,
                            std::span<const int> kept);

/// Adds low <= measure <= high to the problem, under the measure's wish.
void add_range(optimise::Problem& problem, const Measure& measure, double low, double high);

/// Tightens the problem by a rule with another bound; oil_must: nothing happens when bound <= 0.
void add_rule(optimise::Problem& problem, const Rule& rule, int bound);

/// Returns whether the checker finds nothing against this one wish in the blend.
bool meets(const optimise::Problem& problem, const Wishes& wishes, int wish,
           std::span<const int> steps);

/// Searches for any blend at all: the goals are left out.
optimise::Answer any_blend(optimise::Problem problem, const optimise::SearchOptions& options);

/// Returns whether the deadline has passed, the allowance is used up or a stop was asked for.
bool out_of_time(const optimise::SearchOptions& options);

}  // namespace barwright::explain
