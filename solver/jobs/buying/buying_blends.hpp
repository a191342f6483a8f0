#pragma once

#include <vector>

#include "solver/jobs/buying/buying_part.hpp"

namespace barwright::jobs {

/// Blends of all bars from a set of oils: steps per bar and oil of the set.
struct RangeBlends {
  optimise::Status status = optimise::Status::undecided;
  std::vector<int> set, steps;
};

/// Returns blends of all bars from these oils and no more than `have` of each, g.
RangeBlends blends_from(const BuyingQuestion& question, const std::vector<int>& set,
                        const std::vector<double>& have, const optimise::SearchOptions& options);

/// Fills in what is made of a plan's packs: the blends of least worth, to the cent as far as a
/// short search tells. Other oils at hand may join those of `blends` where the counts allow it.
void make_of(const BuyingQuestion& question, const BuyingParts& parts, const RangeBlends& blends,
             const optimise::SearchOptions& options, BuyingPlan& plan);

}  // namespace barwright::jobs
