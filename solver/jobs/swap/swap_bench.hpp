#pragma once

#include <memory>

#include "solver/formulate/formulation.hpp"
#include "targets/brief/swap_brief.hpp"

namespace barwright::jobs {

/// What a swap must keep that no ordinary wish says.
struct SwapKeep {
  targets::Keep keep;
  std::vector<targets::Claim> label;  ///< claims on the order of names
  formulate::KnownBar old_bar;
  std::vector<double> emphasis;         ///< one per term of the feel
  std::vector<std::size_t> feel_goals;  ///< goals of the brief that are nearest in feel
  std::vector<std::string> old_order;   ///< oils of the old recipe, heaviest first
  std::size_t first_wish = 0;           ///< number of its first wish in Assumed::held_back
  targets::SureLevel level = {};        ///< how surely cut-by is kept; feel and melting: typical
  targets::PropertyModel model;
};

/// Adds bench limits, what may be felt and the order of names to a swap's problem, and lets what
/// matters most weigh most. Returns nothing; wishes are numbered on from keep.first_wish.
void keep_swap(formulate::Formulation& out, const formulate::Candidates& candidates,
               const formulate::Assumed& assumed, const SwapKeep& keep);

/// Returns the temperature, C, above which nothing of the blend's fats is solid, as a measure.
explain::Measure clear_point(std::span<const formulate::Candidate> candidates);

}  // namespace barwright::jobs
