#pragma once

#include <string>
#include <vector>

#include "solver/jobs/mannerly.hpp"

namespace barwright::tests {

/// A brief as plainly as makers write them.
struct Case {
  std::string shelf;  ///< a file of tests/manners/shelves, or "library"
  std::string lines;  ///< beside name and oils
};

/// Returns the plain briefs that the tests answer.
const std::vector<Case>& cases();

/// Returns the job of a case, with more lines below it.
jobs::BlendJob job_of(const Case& plain, const std::string& more = {});

/// Returns what a maker would find odd in a blend, sentences; empty: she would pour it. `found` is
/// judged by rules of the test's own, from the library's figures alone.
std::vector<std::string> oddities(const jobs::BlendJob& job, const jobs::BlendResult& found);

}  // namespace barwright::tests
