#pragma once

#include <string>
#include <vector>

#include "core/lye/recipe.hpp"
#include "core/units/note.hpp"

namespace barwright::core {

/// Returns how hot lye makes itself, as a clause: "heats itself to about 98 C, near boiling: it can
/// boil up".
std::string heat_words(double celsius);

/// The same for lye made in ice: "all at once it would heat itself to about 65 C: ...".
std::string ice_heat_words(double celsius);

/// Return the cautions that go with every lye, whole sentences; every command prints these and no
/// others: what can hurt at the bench; what to do when lye has touched someone.
const std::vector<std::string>& lye_dangers();
const std::vector<std::string>& lye_first_aid();

/// Returns all of them for a recipe, its heat among them, most severe first: dangers, then first
/// aid.
std::vector<Note> lye_cautions(const Recipe& recipe);

}  // namespace barwright::core
