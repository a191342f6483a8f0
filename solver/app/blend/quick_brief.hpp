#pragma once

#include <string>
#include <vector>

#include "oils/records/library.hpp"

namespace barwright::app {

/// A wish given on the command line, without any file.
struct QuickWish {
  std::string from;                     ///< "olive:40,coconut:30,palm:25,castor:5"
  std::string want;                     ///< "harder, lather no less"
  std::vector<std::string> using_oils;  ///< shelf files, "library" or oils; empty: the library
};

/// Returns the brief that says the same, as YAML; without a goal in the wish the nearest in feel is
/// the best. Errors: UsageError for shares that do not total 100 %, unknown oils and the like.
std::string quick_brief(const QuickWish& wish, const oils::Library& library);

/// Returns the shelf file named under `using_oils`; empty: none.
std::string shelf_of(const QuickWish& wish);

}  // namespace barwright::app
