#pragma once

#include <string>

namespace barwright::core {

/// Returns a number with this many decimals, a full stop whatever the locale, never "-0".
std::string fixed(double value, int decimals);
/// Returns "5.3 %" for 0.053.
std::string percent_text(double fraction, int decimals = 1);
/// Returns "135.4 g" (decimals trimmed of closing zeros, at most three), or ounces where those are
/// shown (core::ShownIn).
std::string grams_text(double grams);

}  // namespace barwright::core
