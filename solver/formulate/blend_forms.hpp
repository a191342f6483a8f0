#pragma once

#include <span>
#include <vector>

#include "core/chemistry/fatty_acid.hpp"
#include "solver/optimise/problem.hpp"
#include "targets/model/composition.hpp"
#include "targets/model/model.hpp"

namespace barwright::formulate {

/// Returns the property's inner form over oil shares: linear in the shares with the property's
/// bends as kinks. A range on the property is a range on this form, its ends taken through the
/// inverse of the property's scale, so a curved scale costs no exactness.
optimise::Form over_oils(const targets::PropertyForm& property,
                         std::span<const targets::Composition> candidates);

/// Returns sum_k min(x_k, share a_k) - share, which is >= 0 exactly when at least `share` (0..1) of
/// the soap dissolves: see PropertyModel::solubility_limits.
optimise::Form soluble_floor(const core::AcidProfile& limits, double share,
                             std::span<const targets::Composition> candidates);

}  // namespace barwright::formulate
