#include "solver/optimise/within.hpp"

#include <algorithm>
#include <limits>

namespace barwright::optimise {

Within::Within(const SearchOptions& options, std::uint64_t most_work, std::uint64_t most_nodes)
    : options_(options), allowance_{most_work, options.allowance} {
  if (options_.most_nodes == 0) options_.most_nodes = most_nodes;
  options_.allowance = &allowance_;
}

std::uint64_t work_left(const SearchOptions& options) {
  if (options.allowance == nullptr) return std::numeric_limits<std::uint64_t>::max() / 2;
  const Allowance& all = *options.allowance;
  return all.most - std::min(all.most, all.used);
}

}  // namespace barwright::optimise
