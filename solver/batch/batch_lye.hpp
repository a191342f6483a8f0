#pragma once

#include "targets/files/batch_file.hpp"

namespace barwright::batch {

/// Throws InputError at a lye setting of a batch that bears on nothing: the strength of an alkali
/// no part uses, or what every part says anew.
void check_lye_used(const targets::BatchFile& file);

}  // namespace barwright::batch
