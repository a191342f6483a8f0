#pragma once

#include "solver/formulate/formulation.hpp"
#include "targets/files/oil_rules.hpp"

namespace barwright::formulate {

/// Returns how many whole steps make up a blend: 100 for 1 %. Steps in grams must divide the oils
/// of the batch, which then are a whole number of them. Errors: InputError for a step that does not
/// go into 100 %, or is larger than the oils.
int step_count(const targets::OilRules& rules, double oil_grams);

/// Adds the maker's rules on oils to the formulation: how many, how much of each, barred ones,
/// tags, what the shelf holds, and the usual most share of oils that the maker said nothing of.
void add_rules(Formulation& out, const targets::OilRules& rules, const Candidates& candidates,
               const Assumed& assumed);

}  // namespace barwright::formulate
