#pragma once

#include <cstdint>

#include "solver/optimise/search.hpp"

namespace barwright::jobs {

/// What explains an answer may be "so far" itself, and takes an end that is the same on every
/// machine: so many parts of the tree for each question, and so much work for all of one kind
/// (about a second), within what the whole brief is allowed.
class Explaining {
 public:
  explicit Explaining(const optimise::SearchOptions& options) : options_(options) {
    constexpr std::uint64_t kNodes = 20000, kWork = 800'000'000;
    if (options_.most_nodes == 0) options_.most_nodes = kNodes;
    allowance_ = {kWork, options.allowance};
    options_.allowance = &allowance_;
  }
  Explaining(const Explaining&) = delete;
  Explaining& operator=(const Explaining&) = delete;
  const optimise::SearchOptions& options() const { return options_; }

 private:
  optimise::SearchOptions options_;
  optimise::Allowance allowance_;
};

}  // namespace barwright::jobs
