#pragma once

#include <string>

#include "solver/app/print/screen.hpp"
#include "solver/jobs/mannerly.hpp"

namespace barwright::app {

/// Returns a sentence for a bar that cannot be cut in reasonable time; to be said first.
std::string cut_words(const jobs::MannersTold& told);

/// Returns the oils that a proof speaks of: "these oils", or those of the bar in the hand.
std::string these_oils(const jobs::MannersTold& told);

/// Says how the one oil from outside was come by, where one was let in.
void show_let_in(Screen& screen, const jobs::MannersTold& told);

/// Returns which manners gave way so that the wishes could be kept, as a sentence; none: "".
std::string given_way_words(const jobs::MannersTold& told);

/// Returns a sentence that spells out the plain bar that stands where no bar is in the hand.
std::string stand_in_words(const jobs::MannersTold& told);

/// Returns the manners kept, each with its rule, as a sentence.
std::string kept_words(const jobs::MannersTold& told);

/// Shows a sentence, where there is one.
void show_words(Screen& screen, const std::string& words);

/// Lists the manners in force: those that cost the wish something with their price, and the rest.
void show_manners(Screen& screen, const jobs::MannersTold& told);

/// The same without a heading.
void show_manner_rows(Screen& screen, const jobs::MannersTold& told);

/// Says, where nothing fits, which claim of the bar in the hand stands in the way.
void show_claim_in_the_way(Screen& screen, const jobs::MannersTold& told);

}  // namespace barwright::app
