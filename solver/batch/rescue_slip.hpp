#pragma once

#include <string>

namespace barwright::batch {

/// What went wrong at the bench.
struct Slip {
  enum class Kind {
    forgotten,  ///< `line` was left out
    too_much,   ///< `grams` too many of `line`
    too_little,
    instead,    ///< `line` went in where `other` belongs, by its weight
    exchanged,  ///< `line` and `other` went in with each other's weights
    strength,   ///< the jar of `line` is `strength`, not what the batch says
  } kind = Kind::forgotten;
  std::string line;
  std::string other;
  double grams = 0;
  double strength = 0;  ///< mass fraction
  std::string part;     ///< empty: the one part that has the line
};

/// A slip that cannot be read or matches nothing: message for the command line.
struct SlipError {
  std::string message;
};

/// Return the slip that the words of an option state: "castor"; "NaOH 20 g"; "olive for coconut" or
/// "olive and coconut"; "NaOH 90 %". Errors: SlipError.
Slip forgotten(const std::string& words);
Slip too_much(const std::string& words);
Slip too_little(const std::string& words);
Slip swapped(const std::string& words);
Slip other_strength(const std::string& words);

/// Returns the slip in words, as understood.
std::string happened(const Slip& slip);

}  // namespace barwright::batch
