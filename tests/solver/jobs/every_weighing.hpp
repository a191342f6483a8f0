#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/jobs/blend_job.hpp"
#include "tests/solver/optimise/instances.hpp"

namespace barwright::testing {

/// A brief of few oils, small enough to weigh every blend of it.
struct SmallBrief {
  int oils = 4;
  bool coarse = true;      ///< a lye scale whose steps move the superfat by up to a point
  bool may_be_low = true;  ///< a floor under the worst case that raises the superfat of some
  bool tight = false;      ///< wishes that few blends keep, or none
  std::string scale = {};  ///< in place of the drawn one
};

/// Returns a seeded brief as text, and the prices (per kg) to be put to its candidates by place.
std::string drawn_small_brief(Uniform& draw, const SmallBrief& kind);

/// Returns the job of such a brief, its candidates priced.
jobs::BlendJob small_job(std::uint64_t seed, const SmallBrief& kind);

/// What weighing every blend of a job one by one finds: core::weigh and the property model alone,
/// without any form of the search.
struct EveryWeighing {
  int blends = 0, refused = 0, kept = 0;
  std::optional<double>
      best;  ///< the first goal's value, minimised; nothing: none keeps all wishes
  std::vector<int> best_steps;
};
EveryWeighing weigh_every_blend(const jobs::BlendJob& job, double oil_grams);

/// Returns the first goal's value of one blend at its own superfat, where it keeps every wish: by
/// its grams, or by its steps and within a hundredth of a noticeable step by its grams.
std::optional<double> own_value(const jobs::BlendJob& job, const std::vector<int>& steps,
                                double oil_grams);

}  // namespace barwright::testing
