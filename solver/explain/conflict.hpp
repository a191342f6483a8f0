#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "solver/explain/relax_wish.hpp"

namespace barwright::explain {

/// Which part of a colliding wish takes part.
enum class Side { floor, ceiling, both, rule };

/// Wishes that cannot all be had. What was not proved says so.
struct Conflict {
  bool proved = false;      ///< with the limits of the house these wishes leave no blend
  std::vector<int> wishes;  ///< ascending; empty and proved: the house's own limits leave none
  std::vector<Side> sides;  ///< one per wish
  bool minimal = false;     ///< proved: any one of them left out opens the way
  bool smallest = false;    ///< proved: no colliding set has fewer wishes
  int searches = 0;
  std::string reason;  ///< one plain sentence: what was proved
};

struct ConflictOptions {
  /// Searches spent on proving the set smallest, after it is proved minimal.
  int most_searches = 200;
  /// Searches spent on finding a minimal set; past them what is left is still proved to collide.
  int most_filtering = 1000;
};

/// One of several problems that together are what was asked: a blend of any of them is an answer.
/// The wishes have the same numbers in all.
struct Posed {
  const optimise::Problem* problem = nullptr;
  const Wishes* wishes = nullptr;
};

/// Returns the smallest set of wishes that collide. A deletion filter finds a set from which none
/// can be left out; then smallest hitting sets of the sets of wishes that known blends break
/// (Reiter's duality of conflicts and corrections) either prove it smallest or give a smaller one.
/// A set is only `proved` when its own search was.
Conflict find_conflict(const optimise::Problem& problem, const Wishes& wishes,
                       const optimise::SearchOptions& options = {},
                       const ConflictOptions& how = {});

/// The same over several problems: the wishes collide in every one of them.
Conflict find_conflict(std::span<const Posed> posed, const optimise::SearchOptions& options = {},
                       const ConflictOptions& how = {});

/// Returns the smallest set with a member in every one of `sets` (the first in the order of the
/// members), or nothing when it would need more than `most` members.
std::optional<std::vector<int>> hitting_set(const std::vector<std::vector<int>>& sets,
                                            std::size_t most);

}  // namespace barwright::explain
