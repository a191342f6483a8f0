#pragma once

#include "core/lye/recipe.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/jobs/report/report_blend.hpp"

namespace barwright::app {

/// Returns the answer to a brief as a maker reads it: blend, bar against bar, lye, cost, next step;
/// or which wishes collide and the ways out.
std::string text_blend(const jobs::BlendReport& report, bool colour);

/// Returns how much is made: "36 bars of 105 g, weighed cured".
std::string size_words(const targets::Brief& brief, const core::Recipe& recipe);
/// Returns the strength of the lye as it is made, a sentence.
std::string strength_words(const core::Recipe& recipe);
/// Returns in which order things are weighed into the lye pot, sentences.
std::string order_words(const core::Recipe& recipe);

/// Adds a recipe's weigh lines, the lye pot in the order of work: oils with what is left if one is
/// forgotten, lye and water apart.
void show_recipe(Screen& screen, const core::Recipe& recipe, const core::Scales& scales);

/// Returns "2 %, -0.8 % at worst" of two superfats (fractions); what is below 0 never reads 0 %.
std::string at_worst(double superfat, double worst);

/// Adds sentences of a bar against another.
void show_comparison(Screen& screen, std::span<const jobs::PropertyLine> lines,
                     const std::string& yardstick);

/// Adds the cautions of its lye and the notes that a recipe carries, most severe first, then
/// `more`.
void show_notes(Screen& screen, const core::Recipe& recipe, const std::vector<std::string>& more);

/// Returns a figure of an asked wish in its own unit: "60.2 points", "5 %".
std::string in_unit(const formulate::Asked& asked, double value);

}  // namespace barwright::app
