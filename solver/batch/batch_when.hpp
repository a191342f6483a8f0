#pragma once

#include <string>

#include "core/lye/into.hpp"
#include "targets/files/lye_file.hpp"

namespace barwright::batch {

/// Refuses what is told to go into the lye where no lye is reckoned with it: sugar, milk and acids
/// change what may happen there. Errors: InputError at its line.
void refuse_into_lye(const targets::Addition& addition);

/// Refuses another time for what is reckoned as weighed with the lye. Errors: InputError.
void refuse_beside_lye(const targets::Addition& addition);

/// Returns when an addition of a part meets the batch, by the words of the maker or its record.
core::Into into_of(const std::string& when);

}  // namespace barwright::batch
