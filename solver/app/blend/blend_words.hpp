#pragma once

#include <span>
#include <string>

#include "solver/formulate/candidate.hpp"
#include "solver/optimise/answer.hpp"

namespace barwright::app {

/// Returns "olive 40 %, castor 6 %" for whole steps of the candidates, `all` steps together, the
/// largest first. Within a name and its share the spaces are kNoBreak: for a Screen or a page.
std::string blend_words(std::span<const formulate::Candidate> oils, std::span<const int> steps,
                        int all);

/// Returns "5 kg", or for a pack sold by volume "5 L (4.57 kg)".
std::string pack_words(const std::string& size, double grams);

/// Returns a sentence on an answer that is not proved the best.
std::string unproved_words(const optimise::Answer& answer);

}  // namespace barwright::app
