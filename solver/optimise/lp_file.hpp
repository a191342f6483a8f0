#pragma once

#include <string>
#include <vector>

#include "solver/optimise/problem.hpp"

namespace barwright::optimise {

/// What an LP file calls things; all may be empty.
struct LpWords {
  std::vector<std::string> oils;    ///< one per oil, for the identifiers
  std::vector<std::string> wishes;  ///< by wish number, for what is left out
  std::string goal;                 ///< the first goal
  bool fewest_oils = false;         ///< the first goal is the count of oils, which no form can say
  std::vector<int> found;           ///< a blend found, in steps, whose figure is worth a line
};

struct LpText {
  std::string text;
  /// The maker's words for what is curved and so not in the text: "the goal 'nearest in feel'".
  std::vector<std::string> left_out;
};

/// Returns the problem with its first goal in the common LP text format (sections Minimize, Subject
/// To, Bounds, Generals, Binaries), for any other solver. Whole steps w of each oil, z = 1 when it
/// is in, least*z <= w <= most*z. `one` is fixed at 1 and carries constants. A bend min(s, cap) is
/// a helper h <= s, h <= cap where that is enough (it is pushed upwards), else a binary chooses the
/// smaller of the two exactly. Figures are written with 17 digits, so they read back as they were.
/// A goal with squares and a limit or goal with guards are beyond the format: they are left out,
/// and both the text and `left_out` say so. More blends fit then, never fewer.
/// Errors: std::invalid_argument for names that do not fit the oils.
LpText lp_text(const Problem& problem, const LpWords& words = {});

}  // namespace barwright::optimise
