#pragma once

#include <vector>

#include "solver/explain/relax_wish.hpp"

namespace barwright::explain {

/// One number of the brief, moved.
struct Change {
  enum class What { floor, ceiling, rule };
  int wish = -1;
  What what = What::floor;
  int index = -1;   ///< into complete(problem, wishes).measures, or into Wishes::rules
  double from = 0;  ///< the maker's unit; a rule: oils or steps (oil_must: 1 in, 0 out)
  double to = 0;
};

/// A change that opens the way, and the blend that shows it.
struct Fix {
  std::vector<int> wishes;  ///< the one wish it touches; several only in a joint fix
  std::vector<Change> changes;
  double size = 0;      ///< the largest change, in noticeable steps of its wish
  bool proved = false;  ///< nothing less opens the way
  std::vector<int> steps;
};

struct Fixes {
  std::vector<Fix> fixes;      ///< mildest first
  std::vector<int> no_way;     ///< wishes that open nothing even when dropped, proved
  std::vector<int> undecided;  ///< wishes for which time ran out
};

/// Returns for each of the wishes named the least change to it alone that opens the way, mildest
/// first. One measure: an exact search for the value nearest to the wish, all other wishes kept.
/// A wish that caps or bars several oils: one fix for each oil that opens the way by itself. All
/// else (how many oils, several numbers behind one wish): the least t, in noticeable steps, by
/// which all its numbers must give way together. The problem must be without a blend.
/// Errors: std::logic_error when the checker refuses a blend after its own change (our fault).
Fixes find_fixes(const optimise::Problem& problem, const Wishes& wishes, std::span<const int> which,
                 const optimise::SearchOptions& options = {});

/// Returns one fix that moves several wishes together by the least common number of noticeable
/// steps; for when no single wish opens the way. Without a blend (steps empty): not even dropping
/// all of them does, if `proved`.
Fix joint_fix(const optimise::Problem& problem, const Wishes& wishes, std::span<const int> which,
              const optimise::SearchOptions& options = {});

/// Returns the fewest wishes which, dropped together, open the way, and whether that is proved.
/// Empty and proved: there is a blend already, or not even dropping all leaves one.
struct WayOut {
  std::vector<int> wishes;
  bool proved = false;
};
WayOut fewest_to_drop(const optimise::Problem& problem, const Wishes& wishes,
                      const optimise::SearchOptions& options = {});

/// Returns the problem with the changes of a fix made.
optimise::Problem with_fix(const optimise::Problem& problem, const Wishes& wishes, const Fix& fix);

}  // namespace barwright::explain
