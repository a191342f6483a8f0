#pragma once

#include <map>
#include <span>
#include <string>
#include <vector>

#include "oils/books/shelf.hpp"

namespace barwright::oils {

/// Oil, or whatever else stands on the shelf, that a part of a batch needs.
struct Wanted {
  std::string part;
  std::string oil;   ///< as the shelf names it
  double grams = 0;  ///< of packaging the pieces
  double asked = 0;  ///< g on the sheet
};

/// Some of it out of one lot.
struct Draw {
  std::size_t lot = 0;     ///< index into Shelf::lots
  std::size_t wanted = 0;  ///< index into what was wanted
  double grams = 0;
};

/// Which lot of an oil to take first, by the maker's word: oil -> lot number. "topping/coconut" is
/// that part's alone and goes before "coconut".
using LotChoice = std::map<std::string, std::string>;

/// Returns which lots all this comes from: the chosen lot first, then the soonest best-before, lots
/// without one last, else as they stand in the file (the oldest stand first: a lot that comes in is
/// written at the end). What a lot keeps back is never touched. Errors: InputError at the lot (or
/// the shelf) when there is not enough, with what is there; a chosen lot that is not there.
std::vector<Draw> draws(const Shelf& shelf, std::span<const Wanted> wanted,
                        const LotChoice& chosen = {});

/// Returns indices of a shelf's lots in the order to use them up: soonest best-before first.
std::vector<std::size_t> use_up_order(const Shelf& shelf);

}  // namespace barwright::oils
