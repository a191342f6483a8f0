#pragma once

#include "solver/optimise/within.hpp"

namespace barwright::jobs {

/// What explains an answer may be "so far" itself, and takes an end that is the same on every
/// machine: so many parts of the tree for each question, and so much work for all of one kind
/// (about a second), within what the whole brief is allowed.
class Explaining : public optimise::Within {
 public:
  explicit Explaining(const optimise::SearchOptions& options)
      : Within(options, 800'000'000, 20000) {}
};

}  // namespace barwright::jobs
