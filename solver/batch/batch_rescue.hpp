#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/lye/rescue.hpp"
#include "solver/batch/batch_plan.hpp"
#include "solver/batch/rescue_slip.hpp"

namespace barwright::batch {

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
  bool put_back = false;     ///< what was left out, no more: it had its room
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

/// Returns what slips, all of them together, do to a batch and what mends it. Verdicts and fixes
/// come from the pot's worst case alone (core::check_pot), and from the strength its lye would
/// have. Errors: SlipError when a line is in no part, in several, or a slip cannot be.
Rescue rescue(const BatchPlan& plan, std::span<const Slip> slips);

}  // namespace barwright::batch
