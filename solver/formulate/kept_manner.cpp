#include "solver/formulate/kept_manner.hpp"

#include <algorithm>

namespace barwright::formulate {

double KeptManner::level() const {
  if (manner->levels.empty()) return 0;
  return manner->levels[std::min(given, manner->levels.size() - 1)];
}

}  // namespace barwright::formulate
