#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "solver/optimise/problem.hpp"

namespace barwright::optimise {

/// One limit that does not hold.
struct Violation {
  int limit = -1;    ///< index into Problem::limits; -1: shares, counts or steps themselves
  double by = 0;     ///< by how much, in the limit's own unit
  std::string what;  ///< plain sentence
};

/// Returns every way in which shares x (fractions, one per oil) break the problem; empty: it fits.
/// This is the only judge of an answer: no return code of a library is ever believed. Whole steps
/// are not asked of x (grams on a scale are not), see check_steps.
std::vector<Violation> check_shares(const Problem& problem, std::span<const double> x);

/// Returns about how many multiply-adds check_shares takes (see Allowance).
std::uint64_t work_of_checking(const Problem& problem);

/// The same for whole steps: also that they are whole, add up, and keep least and most.
std::vector<Violation> check_steps(const Problem& problem, std::span<const int> steps);

/// Returns whether check_steps finds nothing: the same judge, which says no more than that.
bool fits(const Problem& problem, std::span<const int> steps);

}  // namespace barwright::optimise
