#pragma once

#include <span>
#include <vector>

#include "solver/formulate/formulation.hpp"

namespace barwright::formulate {

/// What became of one wish, recomputed from the grams of the recipe.
struct Verdict {
  int asked = -1;    ///< index into Formulation::asked
  double value = 0;  ///< the subject's own unit; a difference when the wish compares
  double low = 0;    ///< as wished, in the same terms; infinite when open
  double high = 0;
  double missed = 0;  ///< by how much it fails; 0: it holds
};

/// Returns the verdict on every wish and rule that is a measure, reckoned by the property model
/// itself over these shares (fractions of the weighed oils), not by the search's own forms. Rules
/// on shares ("butters at least 15 %") speak of whole steps and are judged on `in_steps`: the scale
/// weighs 15 % of 1613 g as 242 g, and that is 15 % to a maker. A wish that the blend in steps
/// keeps, and its grams miss by less than a hundredth of a noticeable step, is kept.
std::vector<Verdict> judge(const Formulation& formulation, std::span<const double> shares,
                           std::span<const double> in_steps);

}  // namespace barwright::formulate
