#pragma once

#include "targets/model/model.hpp"

namespace barwright::recipe {

/// Returns the whole weeks a bar is cured: until its water is near its end (core::drying_weeks) and
/// its hardness within two points of that after a year; never under four, at most 26. `water` is
/// the mass fraction as cut, `thickness` mm. The one cure that the sheet, the books and buying
/// plans go by.
int cure_weeks(const targets::PropertyModel& model, const targets::Composition& composition,
               targets::BarSettings settings, double water, double thickness = 25);

}  // namespace barwright::recipe
