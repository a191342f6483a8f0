#pragma once

#include <string>
#include <vector>

#include "solver/formulate/candidate.hpp"
#include "solver/formulate/kept_manner.hpp"
#include "targets/brief/brief.hpp"

namespace barwright::formulate {

/// Returns which shipped bar takes the place of a bar in the hand: with lard where much of what is
/// at hand is animal fat, else the first plain one whose oils are all at hand.
std::string stand_in(const targets::Brief& brief, const Candidates& candidates);

/// Returns the manners in force for a brief, the first gives way last: not those it puts out of
/// force, nor those it says something of itself (an explicit limit always wins).
std::vector<KeptManner> manners_in_force(const targets::Brief& brief, const Candidates& candidates,
                                         const HeldTo& held);

}  // namespace barwright::formulate
