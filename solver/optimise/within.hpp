#pragma once

#include <cstdint>

#include "solver/optimise/search.hpp"

namespace barwright::optimise {

/// Search options with an allowance of their own; what is spent of it is spent of the whole's as
/// well. Must outlive the searches that use them.
class Within {
 public:
  /// `most_work` multiply-adds in all; each search `most_nodes` parts where `options` set no number
  /// (0: no limit).
  Within(const SearchOptions& options, std::uint64_t most_work, std::uint64_t most_nodes = 0);
  Within(const Within&) = delete;
  Within& operator=(const Within&) = delete;

  const SearchOptions& options() const { return options_; }
  SearchOptions& options() { return options_; }

 private:
  SearchOptions options_;
  Allowance allowance_;
};

/// Returns the work that is left, multiply-adds; without an allowance more than any search takes.
std::uint64_t work_left(const SearchOptions& options);

}  // namespace barwright::optimise
