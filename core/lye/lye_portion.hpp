#pragma once

#include <span>
#include <vector>

#include "core/lye/batch_pot.hpp"

namespace barwright::core {

/// Returns the alkali in `portion_grams` of a solution that weighs `pot_grams` and holds these
/// alkalis (g as weighed): each line in proportion, its error that of the pot's own weighing, of
/// the pot's total and of the portion's together.
std::vector<PotAlkali> portion_of(std::span<const PotAlkali> in_pot, double portion_grams,
                                  double pot_grams, const Scales& scales);

/// Returns the moles of alkali in these lines at their stated strengths: alkalis of two kinds are
/// compared by moles, never by grams.
double moles_of(std::span<const PotAlkali> lines);

}  // namespace barwright::core
