#pragma once

#include <optional>

#include "core/recipe.hpp"
#include "targets/make_size.hpp"

namespace barwright::solver {

/// Oils of a batch when the maker does not say how much to make, g.
inline constexpr double kDefaultOilGrams = 1000;

/// Returns the request scaled to what the maker wants made: bars, moulds or a mass of oils.
core::RecipeRequest sized(const core::RecipeRequest& request,
                          const std::optional<targets::MakeSize>& make);

/// Returns the bars of a batch, 0 when the maker does not say.
int bars(const std::optional<targets::MakeSize>& make);

}  // namespace barwright::solver
