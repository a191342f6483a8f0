#pragma once

#include <vector>

#include "targets/files/lye_file.hpp"
#include "targets/text/brief_block.hpp"
#include "targets/text/brief_phrase.hpp"

namespace barwright::targets {

/// Takes the keys of a lye block: alkali, strength, superfat, concentration | water-ratio | water,
/// lye-at, oils-at, acids, liquids, into-lye, salt, sodium lactate. The caller says done().
void take_lye(Block& block, LyeWish& lye);
/// Whether every strength a block states is of an alkali it uses. A batch's block may hold one that
/// a part alone uses.
enum class Strengths { all_used, some_for_parts };
/// Returns a whole `lye:` block. Errors: InputError, also for a strength of an alkali not used.
LyeWish read_lye(const oils::yaml::Node& node, Strengths strengths = Strengths::all_used);
/// Throws InputError at the strength of an alkali that this lye does not hold: it would bear on
/// nothing.
void check_strengths_used(const LyeWish& lye);
/// Takes superfat, concentration | water-ratio | water at the top of a recipe or part.
void take_short_lye(Block& block, LyeWish& lye);

Scale read_scale(const oils::yaml::Node& node);

}  // namespace barwright::targets
