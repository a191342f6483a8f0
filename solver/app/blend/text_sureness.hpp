#pragma once

#include <string>

#include "solver/app/print/screen.hpp"
#include "solver/jobs/report/report_blend.hpp"

namespace barwright::app {

/// Returns whether a wish that compares with the maker's bar is met, but only by less than the
/// doubt of the model: the 5th (or 95th) percentile of the difference misses it.
bool inside_the_doubt(const jobs::BlendReport& report, const formulate::Verdict& verdict);

/// Returns what stands behind "kept": the wish's own level (", likely 95 %"), ", within the doubt:
/// a tie", or nothing.
std::string sure_words(const jobs::BlendReport& report, const formulate::Verdict& verdict);

/// Shows how the wishes fared over the lots tried.
void show_trial(Screen& screen, const jobs::BlendReport& report);

/// Shows what being so sure costs, in one sentence.
void show_sureness(Screen& screen, const jobs::BlendReport& report);

}  // namespace barwright::app
