#pragma once

#include <string>

#include "targets/brief/brief.hpp"

namespace barwright::app {

/// Returns a mark (16 hex digits) of a brief's bytes and of all files it read: the shelf with its
/// journal, the bar in the hand, other shelves, the folder of --library. `text` is the brief itself
/// where no file holds it.
std::string brief_hash(const targets::Brief& brief, const std::string& text,
                       const std::string& library_folder);

}  // namespace barwright::app
