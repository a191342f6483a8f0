#pragma once

#include <span>
#include <string>

#include "solver/formulate/formulation.hpp"
#include "solver/formulate/kept_manner.hpp"
#include "targets/model/manners.hpp"

namespace barwright::formulate {

/// Adds the manners to a formulation as limits of the house: never blamed, never among the maker's
/// wishes. "round shares" is the caller's, who sets the steps.
void add_manners(Formulation& out, const targets::Brief& brief, const Candidates& candidates,
                 const HeldTo& held, const targets::PropertyModel& model, const Assumed& assumed,
                 std::span<const KeptManner> kept);

/// Returns the rule of a manner with its figures in: "at most 6 oils", "wears not clearly faster
/// than yard bar".
std::string rule_words(const KeptManner& kept, const HeldTo& held);

}  // namespace barwright::formulate
