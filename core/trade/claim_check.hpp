#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace barwright::core {

/// Something in the bar, as far as a claim may rest on it.
struct InBar {
  std::string what;              ///< as the maker calls it
  std::set<std::string> traits;  ///< the library's tags, or core::traits_of; a scent: "scent"
  bool known = true;             ///< whether its origin is known at all
};

/// A claim that was held against what is in the bar.
struct JudgedClaim {
  enum class Verdict {
    true_so_far,  ///< nothing in the bar speaks against it
    doubtful,     ///< something may
    lie           ///< something does
  };
  std::string claim;  ///< "palm free"
  Verdict verdict = Verdict::true_so_far;
  std::vector<std::string> why;  ///< whole sentences; empty where nothing speaks against it
};

/// Returns the claims in these words that a bar can contradict, each judged: vegan and plant-based;
/// free of palm, nuts, soya, dairy or animal fat however it is said; unscented; natural. Words that
/// say the contrary ("not vegan") are no claim.
std::vector<JudgedClaim> judge_claims(std::string_view words, const std::vector<InBar>& bar);

}  // namespace barwright::core
