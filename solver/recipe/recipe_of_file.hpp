#pragma once

#include <optional>
#include <vector>

#include "core/lye/recipe.hpp"
#include "oils/books/shelf.hpp"
#include "oils/records/library.hpp"
#include "targets/files/recipe_file.hpp"

namespace barwright::recipe {

/// A recipe file at the size to be made.
struct FileRecipe {
  core::RecipeRequest request;
  std::vector<oils::Oil> kinds;  ///< its oils in file order, as their lots are
};

/// Returns what a recipe file says is to be made: its own size, the weights of its blend, or
/// nothing.
std::optional<targets::MakeSize> size_of(const targets::RecipeFile& file);

/// Returns the request for a recipe file at this size. `shelf` (may be null): lots whose
/// certificates cover what they hold. `bars`: for doses per bar (0: not known). Errors: as
/// recipe_request and sized.
FileRecipe recipe_of_file(const targets::RecipeFile& file,
                          const std::optional<targets::MakeSize>& make,
                          const oils::Library& library, const oils::Shelf* shelf, int bars);

}  // namespace barwright::recipe
