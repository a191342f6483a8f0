#pragma once

#include "core/acid.hpp"
#include "core/addition.hpp"
#include "targets/lye_file.hpp"

namespace barwright::solver {

/// Returns whether an addition is one of the acids known_acid() knows.
bool is_acid(const targets::Addition& addition);

/// Returns the acid a maker named, `grams` as weighed. Errors: InputError for plain "citric acid"
/// (its two forms differ by 9 %), a missing strength, or a name that is no known acid.
core::Acid known_acid(const targets::Addition& addition, double grams);

/// Returns what a liquid in place of water brings. Errors: InputError for an unknown one.
core::Addition known_liquid(const targets::Addition& addition, double grams);

/// Returns what an addition to the lye brings: sodium lactate, salt, sugar. Errors: as above.
core::Addition known_addition(const targets::Addition& addition, double grams);

}  // namespace barwright::solver
