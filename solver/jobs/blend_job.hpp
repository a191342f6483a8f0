#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/lye/recipe.hpp"
#include "solver/formulate/formulation.hpp"
#include "solver/formulate/verdict.hpp"
#include "solver/optimise/answer.hpp"
#include "solver/optimise/search.hpp"

namespace barwright::solver {

/// Everything the main job needs, read and resolved.
struct BlendJob {
  targets::Brief brief;
  Candidates candidates;
  std::optional<KnownBar> yardstick;
  targets::PropertyModel model;
  PlainBar plain_bar;
  /// Adds what no brief says (a swap's bench and feel); empty: nothing. Wishes it adds are numbered
  /// on from the brief's own in Assumed::held_back.
  std::function<void(Formulation&, const Candidates&, const Assumed&)> more = {};
};

/// Returns the whole problem of a job: its brief's, and what `more` adds.
Formulation formulation_of(const BlendJob& job, const Assumed& assumed);

/// A brief answered: the answer as the search proved it, and, where there is a blend, the weighed
/// recipe with every wish recomputed from its grams.
struct BlendResult {
  Answer answer;
  Formulation formulation;  ///< the problem the answer belongs to
  Assumed assumed;
  core::Recipe recipe;
  std::vector<std::size_t> used;  ///< candidates in the blend, by falling share
  std::vector<double> shares;     ///< fractions by the rounded grams, one per candidate
  targets::Composition composition;
  targets::BarSettings settings;  ///< the recipe's own
  std::vector<Verdict> verdicts;
  int passes = 0;
  bool too_coarse = false;  ///< rounding to the scale broke a wish every time
  bool has_blend() const { return !answer.steps.empty(); }
};

/// Returns the answer to a brief. The batch size and the real superfat follow from the blend, and
/// the blend from them, so search and weighing take turns until they agree; a wish that the
/// rounding to grams breaks is held a little tighter and searched again (then the status says no
/// more than was proved for the wish itself). Errors: InputError, Refusal.
BlendResult find_blend(const BlendJob& job, const SearchOptions& options);

/// Returns a blend that was found elsewhere, weighed to the brief's size, with every wish judged
/// from its grams; `answer` has its steps only. Errors: InputError, Refusal.
BlendResult weighed_blend(const BlendJob& job, const Assumed& assumed, std::vector<int> steps);

/// Holds every wish that a weighed blend missed tighter, by what it missed and so far that the same
/// blend is no answer again. Returns whether any was missed.
bool hold_back(const BlendResult& result, std::vector<double>& held_back);

/// Returns the bar's settings that a weighed recipe has, for the property model.
targets::BarSettings settings_of(const core::Recipe& recipe);

/// Returns what the search would assume before any blend is known (equal parts of the candidates).
Assumed first_assumptions(const BlendJob& job);

}  // namespace barwright::solver
