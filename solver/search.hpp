#pragma once

#include <atomic>
#include <chrono>
#include <optional>
#include <vector>

#include "solver/answer.hpp"
#include "solver/problem.hpp"

namespace barwright::solver {

struct SearchOptions {
  /// One deadline shared by every stage; none: until proved.
  std::optional<std::chrono::steady_clock::time_point> deadline;
  /// Set from a signal handler to stop with the best so far.
  const std::atomic<bool>* stop = nullptr;
  /// No fixings, cuts or warm starts: the slower second mode the tests compare with.
  bool plain = false;
  /// Whole steps to start from (an earlier answer, a neighbour on a curve); ignored if they do not
  /// fit.
  std::vector<int> start;
};

/// Returns the best blend with what was proved about it. Deterministic: the same problem without a
/// deadline gives the same answer on every machine. Ties: first goal, then later goals, then fewer
/// oils, then the blend that comes first in the order of the candidates (larger share of earlier
/// oils). Errors: std::invalid_argument for a problem whose vectors do not fit together.
Answer search(const Problem& problem, const SearchOptions& options = {});

}  // namespace barwright::solver
