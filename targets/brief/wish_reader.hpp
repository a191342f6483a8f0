#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "targets/brief/wish.hpp"
#include "targets/text/brief_block.hpp"
#include "targets/text/brief_phrase.hpp"

namespace barwright::targets {

/// Returns the wishes of one line of `want`: one phrase, several joined by "and" or a comma, a list
/// of phrases, or {wish: ..., level: likely}. Every phrase is listed in wish_phrase.cpp.
std::vector<Wish> read_wish(const oils::yaml::Node& key, const oils::yaml::Node& value);
std::vector<Wish> read_wishes(const oils::yaml::Node& want);

/// Takes every key of a block that is left as a line of `want`. One that is all but one of
/// `others`, keys of the block that are no wishes, is an error that names it. Errors are kept by
/// the block.
void take_wishes(Block& block, std::initializer_list<const char*> others,
                 std::vector<Wish>& wishes);

/// Whether any wish or goal needs the brief's own yardstick.
const Written* needs_yardstick(const std::vector<Wish>& wishes, const std::vector<Goal>& goals);

/// Returns the goals of `best` or `then`: a phrase, a block, or a list of these.
std::vector<Goal> read_goals(const oils::yaml::Node& node, const Reading& reading);

}  // namespace barwright::targets
