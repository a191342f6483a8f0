#pragma once

#include <span>
#include <string>
#include <vector>

#include "solver/formulate/known_bar.hpp"
#include "targets/model/difference.hpp"
#include "targets/model/lean.hpp"
#include "targets/model/model.hpp"

namespace barwright::jobs {

/// One property of the bar beside the yardstick's.
struct PropertyLine {
  targets::Property property = targets::Property::hardness;
  double value = 0;             ///< points; titre: C
  targets::Difference against;  ///< bar minus yardstick, drawn together
  std::string leans;            ///< what it leans on, a sentence part; may be empty
  bool wished = false;
};

/// Returns the lines of all properties of a bar against a yardstick; used for recipes too.
std::vector<PropertyLine> property_lines(const targets::PropertyModel& model,
                                         const targets::Composition& bar,
                                         const targets::BarSettings& settings,
                                         const formulate::KnownBar& yardstick,
                                         std::span<const targets::NamedPart> parts);

}  // namespace barwright::jobs
