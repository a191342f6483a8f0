#pragma once

#include <memory>

#include "solver/jobs/manners_told.hpp"

namespace barwright::jobs {

/// A brief answered as a maker would pour it.
struct Mannerly : MannersTold {
  std::shared_ptr<const BlendJob> job;  ///< with the manners kept in it
  BlendResult result;
};

/// Returns the answer to a brief with the manners that fit: steps of 5, 2, 1, 0.5 % are tried in
/// turn; where none fits, manners give way one level at a time, the mildest first, before it is
/// said that nothing fits. Errors: as find_blend.
/// `tell`: what became of each manner and its price is worked out, too.
Mannerly find_mannerly(const BlendJob& job, const optimise::SearchOptions& options,
                       bool tell = true);

}  // namespace barwright::jobs
