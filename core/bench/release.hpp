#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/lye/recipe.hpp"
#include "core/units/date.hpp"

namespace barwright::core {

/// A recorded test of one part of a batch.
struct PartTest {
  std::string part;
  Day day{};
  bool passed = false;
  std::string how;  ///< in the maker's words: "no zap, pH 9.6"
};

/// Whether bars may be sold.
enum class Hold {
  on_hold,     ///< a part has no test or failed its last, or was not weighed by its recipe
  curing,      ///< tested, not yet cured
  fit_to_sell  ///< tested and cured
};
/// Returns "on hold", "curing" or "fit to sell".
const char* word(Hold hold);

/// Why the maker lets go a batch that was held for its weights, in her own words.
struct LetGo {
  Day day{};
  std::string why;
};

/// A batch as the release looks at it.
struct ReleaseRequest {
  std::vector<std::string> parts;
  std::vector<PartTest> tests;  ///< in the order recorded: the last of a part counts
  Day made{};
  Day ready{};
  bool lye_heavy = false;  ///< weights as typed in leave free alkali at worst: no test clears that
  /// Why weights as typed in are not those of the recipe, whole sentences: no test clears them, but
  /// the maker may, in words.
  std::vector<std::string> held;
  std::optional<LetGo> let_go;  ///< clears `held` from its day on, never `lye_heavy`
};

struct Release {
  Hold hold = Hold::on_hold;
  std::vector<std::string> reasons;  ///< whole sentences; empty when fit to sell
  std::vector<std::string> untested;
  std::vector<std::string> failed;
};

/// Returns whether bars of this batch may be sold on `today`, and if not, why.
Release release(const ReleaseRequest& request, const Day& today);

/// Returns the day a cure of so many hours ends: whole days, begun ones count.
Day ready_day(const Day& made, double cure_hours);

/// A part's weight, poured and cured, g.
struct PartWeight {
  std::string part;
  double poured = 0;
  double cured = 0;  ///< estimated from water loss (core::cured_fraction)
};
/// Returns the estimated weight of a cured bar, g: all parts over all bars. Errors: Refusal for no
/// bars.
double cured_bar_grams(std::span<const PartWeight> parts, int bars);
/// Returns the net weight a label may state, g: the estimate rounded down to whole grams, below 10
/// g to tenths. A bar lighter than its label is the fault that law looks for.
double label_grams(double bar_grams);

}  // namespace barwright::core
