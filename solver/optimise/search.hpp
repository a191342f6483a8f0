#pragma once

#include <atomic>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "solver/optimise/answer.hpp"
#include "solver/optimise/problem.hpp"

namespace barwright::optimise {

/// Work that several searches share, counted so that it is the same on every machine. One unit is
/// about one multiply-add of the engines and of what judges their results.
struct Allowance {
  std::uint64_t most = 0;
  Allowance* outer = nullptr;  ///< what is spent here is spent there as well
  std::uint64_t used = 0;

  void spend(std::uint64_t work) {
    for (Allowance* one = this; one != nullptr; one = one->outer) one->used += work;
  }
  bool used_up() const { return used >= most || (outer != nullptr && outer->used_up()); }
};

/// Looks on while a search lasts; changes nothing of it.
class Watch {
 public:
  virtual ~Watch() = default;
  /// Whether it wants to see anything now: asked at every part.
  virtual bool due() = 0;
  /// The value of a goal so far, infinite: no blend yet; and what no blend can better, -infinite:
  /// not known.
  virtual void seen(std::size_t goal, double value, double bound) = 0;
};

struct SearchOptions {
  /// One deadline shared by every stage; none: until proved.
  std::optional<std::chrono::steady_clock::time_point> deadline;
  /// Set from a signal handler to stop with the best so far.
  const std::atomic<bool>* stop = nullptr;
  /// At most about this many parts of the tree, all goals together; 0: no limit. Unlike a deadline
  /// it is the same on every machine.
  std::uint64_t most_nodes = 0;
  /// Shared by every search of a question, as a deadline is; none: no limit.
  Allowance* allowance = nullptr;
  /// No fixings, cuts or warm starts: the slower second mode the tests compare with.
  bool plain = false;
  /// Whole steps to start from (an earlier answer, a neighbour on a curve); ignored if they do not
  /// fit.
  std::vector<int> start;
  Watch* watch = nullptr;  ///< may be null
};

/// Returns the best blend with what was proved about it. Deterministic: the same problem without a
/// deadline gives the same answer on every machine.
/// Goals are taken in turn: each is proved, then kept at no more than its value + give while the
/// next is minimised; goals[g].value is that of the blend told: up to `give` above
/// the proved best of goal g, which lies within kGap (or the goal's tie) of goals[g].bound once the
/// status is optimal.
/// Ties: a blend displaces another only when its goal is lower; the fixed order in which the tree
/// is walked decides between equal ones. Candidates with the same figures everywhere (two lots of
/// one oil) are then used from the first on: fewer oils, then earlier ones. To prefer, say, fewer
/// changes or stock at hand among equals, state it as a later goal. Errors: std::invalid_argument
/// for a problem whose vectors do not fit together (Problem::validate).
Answer search(const Problem& problem, const SearchOptions& options = {});

}  // namespace barwright::optimise
