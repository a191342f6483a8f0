#pragma once

#include <string>

#include "solver/books/make_plan.hpp"

namespace barwright::books {

/// Returns a weighed part's lines; `pot` is what of them meets the lye, `scales` those of the
/// bench.
PlanPart plan_part(const std::string& name, const core::RecipeRequest& request,
                   const core::Recipe& recipe, const core::Pot& pot, const core::Scales& scales);

/// Returns the oil with what the certificates of the shelf's lots say; else the library's.
oils::Oil oil_as_held(const std::string& name, double grams, const oils::Library& library,
                      const oils::Shelf* shelf);

}  // namespace barwright::books
