#pragma once

#include <map>
#include <string>
#include <vector>

#include "solver/batch/batch_plan.hpp"

namespace barwright::batch {

/// A part's place in its batch.
struct PartSize {
  double oil_grams = 0;  ///< wetting oil included
  int bars = 0;          ///< of the batch, for doses per bar
  /// Its share of what the batch's own `lye:` doses in all or per bar: 1 where it stands alone.
  double acids_share = 1, liquids_share = 1, into_lye_share = 1;
  std::map<std::string, double> wanted;  ///< g of each oil, all parts together
};

/// Returns the places of the parts when they hold these oils, g: what the batch doses in all goes
/// by weight of oils to the parts that say nothing of their own.
std::vector<PartSize> part_sizes(const BatchPlan& batch, const std::vector<double>& oils);

}  // namespace barwright::batch
