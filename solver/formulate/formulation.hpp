#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/units/error.hpp"
#include "solver/explain/relax_wish.hpp"
#include "solver/formulate/candidate.hpp"
#include "solver/formulate/known_bar.hpp"
#include "solver/optimise/problem.hpp"
#include "targets/brief/brief.hpp"
#include "targets/model/model.hpp"

namespace barwright::formulate {

/// Something the maker asked for, as explanations speak of it. Its number is its place in
/// Formulation::asked, and the `wish` of the limits and rules it made.
struct Asked {
  std::string words = {};  ///< "hardness: at least 5 above"
  core::Place place = {};
  std::string subject = {};  ///< "hardness", "oils", "castor"
  std::string unit = {};     ///< "points", "EUR per kg", "%", "oils"; may be empty
  double per_unit = 1;       ///< figures of its measure or rule times this are in `unit`
  double offset = 0;         ///< the yardstick's value, for a wish that is a difference to it
  bool compared = false;
  bool of_the_lye = false;        ///< the lye engine refuses what is beyond it
  bool bars = false;              ///< oils that are out: no figure gives way, only one may come in
  int wish = -1;                  ///< index into Brief::wishes; -1: a rule
  targets::SureLevel level = {};  ///< how sure its figures are kept

  /// Returns a figure of its measure in `unit`, against the yardstick where it is compared.
  double shown(double value) const { return (value - offset) * per_unit; }
};

/// What the properties are reckoned at while the search runs; the recipe's real figures are put in
/// again once it is weighed.
struct Assumed {
  double oil_grams = 1000;
  double batter_per_oil = 1.5;  ///< g batter per g oils
  int bars = 0;                 ///< per batch; 0: not known
  targets::BarSettings settings;
  std::optional<double> step_grams = {};  ///< whole steps in place of the brief's, g
  std::vector<double> held_back;          ///< per wish: how much tighter it is kept, its own unit
};

/// A goal, as answers speak of it.
struct AskedGoal {
  std::string words;                    ///< "most hardness"
  std::string unit;                     ///< of `shown`
  std::function<double(double)> shown;  ///< the goal's number in the maker's unit
  bool tie_breaker = false;             ///< the house's own
};

/// A brief turned into numbers, with what is needed to turn an answer back.
struct Formulation {
  optimise::Problem problem;
  explain::Wishes wishes;
  std::vector<Asked> asked;
  std::vector<AskedGoal> goals;  ///< one per Problem::goals
  int fewest_oils_at = -1;       ///< which goal is "fewest oils", a count no form can say; -1: none
};

/// Returns a shipped yardstick by name, worked out. Errors: InputError at `written`.
using PlainBar = std::function<KnownBar(const std::string& name, const targets::Written& written)>;

/// Returns the problem a brief poses over these candidates. Errors: InputError at the wish that
/// cannot be put (titre, a ceiling on the soluble share, a cost without prices).
Formulation formulate(const targets::Brief& brief, const Candidates& candidates,
                      const std::optional<KnownBar>& yardstick, const targets::PropertyModel& model,
                      const Assumed& assumed, const PlainBar& plain_bar);

}  // namespace barwright::formulate
