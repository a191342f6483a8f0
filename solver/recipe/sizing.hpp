#pragma once

#include <functional>
#include <optional>

#include "core/lye/recipe.hpp"
#include "targets/files/make_size.hpp"

namespace barwright::recipe {

/// Oils of a batch when the maker does not say how much to make, g.
inline constexpr double kDefaultOilGrams = 1000;

/// What is asked of core::weigh with so many g of oils in all. Doses "in all" and "per bar" stay as
/// they are whatever the oils weigh, so a request is made for its size, never scaled to it.
using RequestAt = std::function<core::RecipeRequest(double oil_grams)>;

/// Returns the request of the size the maker wants made: bars, moulds or a mass of oils. Errors:
/// Refusal where what is added in all leaves no room for oils; what `at` throws.
core::RecipeRequest sized(const RequestAt& at, const std::optional<targets::MakeSize>& make);

/// Returns the bars of a batch, 0 when the maker does not say.
int bars(const std::optional<targets::MakeSize>& make);

}  // namespace barwright::recipe
