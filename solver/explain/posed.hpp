#pragma once

#include <span>
#include <vector>

#include "solver/explain/conflict.hpp"
#include "solver/explain/fixes.hpp"
#include "solver/explain/reach.hpp"

namespace barwright::explain {

/// As find_fixes, over several problems that together are what was asked: the mildest change to
/// each wish that opens the way in any of them; `proved` where less was excluded in all.
Fixes find_fixes(std::span<const Posed> posed, std::span<const int> which,
                 const optimise::SearchOptions& options = {});

/// As joint_fix, likewise.
Fix joint_fix(std::span<const Posed> posed, std::span<const int> which,
              const optimise::SearchOptions& options = {});

/// As find_reach, likewise: from the least of all to the most of all, among the problems in which
/// most of the other wishes can stay.
std::vector<Reach> find_reach(std::span<const Posed> posed,
                              const optimise::SearchOptions& options = {});

}  // namespace barwright::explain
