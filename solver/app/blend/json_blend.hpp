#pragma once

#include <string>

#include "core/lye/recipe.hpp"
#include "solver/app/json.hpp"
#include "solver/jobs/report/report_blend.hpp"

namespace barwright::app {

/// Version of every JSON object the program prints; rises when a member changes its meaning.
inline constexpr int kJsonSchema = 1;

/// The same of what `blend` prints. 2: `cautions` became objects with a severity.
inline constexpr int kBlendSchema = 2;

/// Returns the answer to a brief as one JSON object with a newline at its end.
Json json_blend(const jobs::BlendReport& report);

/// Returns a recipe: oils, lye, water_grams, superfat_percent, total_grams and the rest.
Json json_recipe(const core::Recipe& recipe);

}  // namespace barwright::app
