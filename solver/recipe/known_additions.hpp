#pragma once

#include "core/lye/acid.hpp"
#include "core/lye/addition.hpp"
#include "oils/records/additives.hpp"
#include "oils/records/library.hpp"
#include "targets/files/lye_file.hpp"

namespace barwright::recipe {

/// Names are matched whole (case, hyphens and commas folded): "coconut water" is no water, "amino
/// acid" no acid whose use of lye is known.

/// Returns whether an addition names one of the acids known_acid() knows, or plain "citric acid".
bool is_acid(const targets::Addition& addition);

/// Returns the acid a maker named, `grams` as weighed: crystals with a strength are a solution of
/// them. Errors: InputError for plain "citric acid" (its two forms differ by 9 %), a missing
/// strength, or a name that is no known acid.
core::Acid known_acid(const targets::Addition& addition, double grams);

/// Returns what a liquid in place of water brings. Errors: InputError for an unknown one, or one
/// with a strength that would be dropped.
core::Addition known_liquid(const targets::Addition& addition, double grams);

/// Returns what an addition to the lye brings: sodium lactate, salt, sugar; a strength of salt or
/// sugar is their share of a solution in water. Errors: as above.
core::Addition known_addition(const targets::Addition& addition, double grams);

/// Returns what an addition brings that joins a part later. `record`: what the additive records
/// say of it, or null. Errors: InputError for an alkali, a fat or wax of the library, a liquid
/// nothing is known of, and a strength that would be dropped.
core::Addition known_in_part(const targets::Addition& addition, const oils::Additive* record,
                             const oils::Library& library, double grams, core::Into into);

/// Errors: InputError when an addition is an alkali: it belongs under 'lye:' or nowhere.
void refuse_alkali(const targets::Addition& addition);

}  // namespace barwright::recipe
