#pragma once

#include <string>
#include <vector>

#include "oils/books/draw.hpp"
#include "solver/books/make_plan.hpp"

namespace barwright::books {

/// Takes the strength of each alkali line of the plan from the jars of the shelf it comes out of
/// (`chosen` first), where their purity is entered; a mix of jars by weight, as doubtful as each of
/// them. Returns what the maker should know, whole sentences: a jar that is not what the recipe
/// reckons with, one without a purity, an alkali that the shelf holds only in its other kind.
/// Errors: InputError when the jars hold too little, or a chosen lot is of another alkali.
std::vector<std::string> reckon_jars(MakePlan& plan, const oils::Shelf& shelf,
                                     const oils::LotChoice& chosen);

}  // namespace barwright::books
