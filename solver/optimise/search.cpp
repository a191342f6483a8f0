// One tree per goal: the first is proved, then becomes a ceiling for the next. See parts.cpp.

#include "solver/optimise/search.hpp"

#include "solver/optimise/parts.hpp"

namespace barwright::optimise {

Answer search(const Problem& problem, const SearchOptions& options) {
  return search_parts({whole(problem)}, options);
}

}  // namespace barwright::optimise
