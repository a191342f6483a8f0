#pragma once

#include <string>

#include "solver/app/print/screen.hpp"
#include "solver/jobs/report/report_blend.hpp"

namespace barwright::app {

/// Says first when a bar cannot be cut in reasonable time.
void show_cut(Screen& screen, const jobs::BlendReport& report);

/// Says which manners gave way so that the wishes could be kept.
void show_given_way(Screen& screen, const jobs::BlendReport& report);

/// Spells out the plain bar that stands where no bar is in the hand.
void show_stand_in(Screen& screen, const jobs::BlendReport& report);

/// Lists the manners in force: those that cost the wish something with their price, and the rest.
void show_manners(Screen& screen, const jobs::BlendReport& report);

/// Says, where nothing fits, which claim of the bar in the hand stands in the way.
void show_claim_in_the_way(Screen& screen, const jobs::BlendReport& report);

}  // namespace barwright::app
