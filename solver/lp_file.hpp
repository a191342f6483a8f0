#pragma once

#include <span>
#include <string>

#include "solver/problem.hpp"

namespace barwright::solver {

/// Returns the problem with its first goal in the common LP text format (sections Minimize, Subject
/// To, Bounds, Generals, Binaries), for any other solver. Whole steps w of each oil, z = 1 when it
/// is in, least*z <= w <= most*z. `one` is fixed at 1 and carries constants. A bend min(s, cap) is
/// a helper h <= s, h <= cap where that is enough (it is pushed upwards), else a binary chooses the
/// smaller of the two exactly. `names`: one per oil for the identifiers; empty: numbers. Figures
/// are written with 17 digits, so they read back as they were.
/// Errors: std::invalid_argument for a goal with curved parts, which the format's common core
/// cannot hold.
/// A problem with guards (is_guarded) is refused likewise.
std::string lp_text(const Problem& problem, std::span<const std::string> names = {});

/// Returns whether lots or doubt make any form of the problem curved.
bool is_guarded(const Problem& problem);

}  // namespace barwright::solver
