#pragma once

#include <array>
#include <vector>

#include "targets/model/composition.hpp"
#include "targets/model/property.hpp"
#include "targets/model/property_form.hpp"

namespace barwright::targets {

/// What single oils do that print does not say of them.
struct OilOffsets {
  struct Of {
    Composition pure;                            ///< of the oil alone
    std::array<double, kPropertyCount> steps{};  ///< noticeable steps in a bar of nothing else
  };
  std::vector<Of> oils;
};

/// Returns by how much the logarithm of a figure of pace moves for one noticeable step: of keeping
/// and working time, whose score falls by 25 points per unit of it at 50.
double log_per_step(Property property);

/// Returns what an oil adds to the inner part of a form, per share of it, when a bar of nothing
/// else has so many noticeable steps more of the property. Such a bar stays within 0..100 points.
double own_effect(const PropertyForm& form, Property property, const Composition& pure,
                  double steps);

/// The same where the inner part of the oil alone is known; `rising`: whether the score rises with
/// it.
double own_effect(bool rising, Property property, double alone, double steps);

/// Puts what the oils add into a form.
void put_own(PropertyForm& form, Property property, const OilOffsets& offsets);

}  // namespace barwright::targets
