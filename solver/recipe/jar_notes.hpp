#pragma once

#include <vector>

#include "core/lye/recipe.hpp"
#include "core/units/note.hpp"
#include "oils/books/shelf.hpp"

namespace barwright::recipe {

/// Returns what is to be said before the alkali is weighed: jars of the shelf that are of another
/// purity than the recipe reckons with, and an alkali that the shelf keeps only in its other kind.
std::vector<core::Note> jar_notes(const core::Recipe& recipe, const oils::Shelf& shelf);

}  // namespace barwright::recipe
