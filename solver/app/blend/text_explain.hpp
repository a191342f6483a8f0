#pragma once

#include "solver/app/blend/text_blend.hpp"

namespace barwright::app {

/// Returns what the n-th of the other answers is for: "the cheapest, without palm".
std::string alternative_name(const jobs::BlendReport& report, std::size_t n);

/// Adds the other answers, each by what differs.
void show_alternatives(Screen& screen, const jobs::BlendReport& report);

/// Adds why nothing fits and the ways out.
void show_no(Screen& screen, const jobs::BlendReport& report);

/// Adds which wishes hold the blend back, in at most two sentences.
void show_prices(Screen& screen, const jobs::BlendReport& report);

}  // namespace barwright::app
