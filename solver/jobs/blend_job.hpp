#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/lye/recipe.hpp"
#include "core/units/error.hpp"
#include "solver/formulate/formulation.hpp"
#include "solver/formulate/verdict.hpp"
#include "solver/optimise/answer.hpp"
#include "solver/optimise/search.hpp"

namespace barwright::jobs {

/// Everything the main job needs, read and resolved.
struct BlendJob {
  targets::Brief brief;
  formulate::Candidates candidates;
  std::optional<formulate::KnownBar> yardstick;
  targets::PropertyModel model;
  formulate::PlainBar plain_bar;
  /// Adds what no brief says (a swap's bench and feel); empty: nothing. Wishes it adds are numbered
  /// on from the brief's own in Assumed::held_back.
  std::function<void(formulate::Formulation&, const formulate::Candidates&,
                     const formulate::Assumed&)>
      more = {};
  /// Adds the house's manners (mannerly.hpp); empty: the free search.
  std::function<void(formulate::Formulation&, const formulate::Candidates&,
                     const formulate::Assumed&)>
      manners = {};
};

/// Returns the whole problem of a job: its brief's, and what `more` and `manners` add.
formulate::Formulation formulation_of(const BlendJob& job, const formulate::Assumed& assumed);

/// A brief answered: the answer as the search proved it, and, where there is a blend, the weighed
/// recipe with every wish recomputed from its grams.
struct BlendResult {
  optimise::Answer answer;
  formulate::Formulation formulation;  ///< the problem the answer belongs to
  formulate::Assumed assumed;
  core::Recipe recipe;
  std::vector<std::size_t> used;  ///< candidates in the blend, by falling share
  std::vector<double> shares;     ///< fractions by the rounded grams, one per candidate
  targets::Composition composition;
  targets::BarSettings settings;  ///< the recipe's own
  std::vector<formulate::Verdict> verdicts;
  int passes = 0;
  bool too_coarse = false;  ///< rounding to the scale broke a wish every time
  /// Where no blend fits: the problem at each superfat the lye may be reckoned with, which together
  /// are what was asked. `formulation` is the first of them.
  std::vector<formulate::Formulation> slices = {};
  /// Where no blend fits: why one that would keep the wishes is not safe to make.
  std::optional<core::Refusal> lye_in_the_way = {};
  bool has_blend() const { return !answer.steps.empty(); }
};

/// Returns the answer to a brief: the best of all blends as each is weighed, at its own superfat.
/// A wish is kept by the weighed grams, or by the blend in steps where its grams miss it by less
/// than a hundredth of a noticeable step. `optimal` and `infeasible` hold for the batch's size; the
/// size follows from the blend, so weighing and search take turns until they agree. What was found
/// is never let go: less than the best for want of time is `feasible`. Errors: InputError; Refusal
/// where every blend of the oils is refused by the lye engine.
BlendResult find_blend(const BlendJob& job, const optimise::SearchOptions& options);

/// Returns a blend that was found elsewhere, weighed to the brief's size, with every wish judged
/// from its grams; `answer` has its steps only. Errors: InputError, Refusal.
BlendResult weighed_blend(const BlendJob& job, const formulate::Assumed& assumed,
                          std::vector<int> steps);

/// Holds every wish that a weighed blend missed tighter, by what it missed and so far that the same
/// blend is no answer again. Returns whether any was missed.
bool hold_back(const BlendResult& result, std::vector<double>& held_back);

/// Returns the problem of an answer with a blend, its wishes held so much tighter that a blend
/// which misses one once it is weighed is not its best. So blends around an answer start from the
/// answer.
optimise::Problem held_as_weighed(const BlendJob& job, const BlendResult& result,
                                  const optimise::SearchOptions& options);

/// Returns the problem of a batch at each superfat the lye may be reckoned with, its properties and
/// the lye's limits included: together all blends that can be weighed. None: no blend can be.
/// Errors: Refusal.
std::vector<formulate::Formulation> posed_at_each_superfat(const BlendJob& job,
                                                           const formulate::Assumed& assumed);

/// Returns what the search would assume before any blend is known (equal parts of the candidates).
formulate::Assumed first_assumptions(const BlendJob& job);

}  // namespace barwright::jobs
