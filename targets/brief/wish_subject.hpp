#pragma once

#include <cstddef>
#include <string_view>

#include "targets/brief/wish.hpp"
#include "targets/text/brief_phrase.hpp"

namespace barwright::targets {

/// Returns what a key or a phrase speaks of: a property, "iodine value", "lauric + myristic",
/// "palmitic + stearic / oleic", "oil cost". `offset` says where in the node the text starts.
/// Errors: unknown name, with the nearest.
Subject read_subject(const oils::yaml::Node& node, std::string_view text, std::size_t offset);
Subject read_subject(const oils::yaml::Node& key);

/// Takes one amount of a subject, in its unit; `difference` when it is how far from another bar.
/// Sets per and currency of an oil cost. Errors: wrong or missing unit, outside what can be.
double take_amount(Phrase& phrase, Subject& subject, bool difference);

}  // namespace barwright::targets
