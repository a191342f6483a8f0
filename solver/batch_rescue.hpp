#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/rescue.hpp"
#include "solver/batch_plan.hpp"

namespace barwright::solver {

/// What went wrong at the bench.
struct Slip {
  enum class Kind {
    forgotten,  ///< `line` was left out
    too_much,   ///< `grams` too many of `line`
    too_little,
    instead,    ///< `line` went in where `other` belongs, by its weight
    exchanged,  ///< `line` and `other` went in with each other's weights
  } kind = Kind::forgotten;
  std::string line;
  std::string other;
  double grams = 0;
  std::string part;  ///< empty: the one part that has the line
};

/// A slip that cannot be read or matches nothing: message for the command line.
struct SlipError {
  std::string message;
};

/// Return the slip that the words of an option state: "castor"; "NaOH 20 g"; "olive for coconut" or
/// "olive and coconut". Errors: SlipError.
Slip forgotten(const std::string& words);
Slip too_much(const std::string& words);
Slip too_little(const std::string& words);
Slip swapped(const std::string& words);

enum class RescueVerdict {
  safe,  ///< use it as it is
  mend,  ///< not as it is; one of the fixes makes it good
  hold,  ///< do not use; no fix here is sure
};
const char* word(RescueVerdict verdict);

/// One way out.
struct RescueFix {
  std::string what;          ///< "castor", "sodium hydroxide", ...
  double grams = 0;          ///< to add
  double water_grams = 0;    ///< to add with alkali, as lye of the batch's strength
  std::string how;           ///< whole sentences
  bool liquid_only = false;  ///< not as a rebatch
  core::PotCheck after;
};

/// What became of one part.
struct PartRescue {
  std::string part;
  core::PotCheck planned, now;
  RescueVerdict verdict = RescueVerdict::safe;
  std::vector<RescueFix> fixes;  ///< best first
  std::vector<std::string> say;
};

struct Rescue {
  std::string happened;  ///< in words, as understood
  std::vector<PartRescue> parts;
  /// "olive for coconut" may be meant the other way round: what would then be.
  std::optional<core::PotCheck> other_way;
  std::string other_way_words;
  RescueVerdict verdict() const;  ///< the worst of the parts'
};

/// Returns what a slip does to a batch and what mends it: every fix is checked by the lye engine's
/// own worst case (core::meets). Errors: SlipError when the line is in no part, or in several.
Rescue rescue(const BatchPlan& plan, const Slip& slip);

}  // namespace barwright::solver
