#pragma once

#include <map>
#include <string>
#include <vector>

#include "solver/batch/batch_plan.hpp"

namespace barwright::batch {

/// Returns what the batch says of lye with what the part says laid over it.
targets::LyeWish merged(const targets::LyeWish& batch, const targets::LyeWish& part);

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

/// Returns the part weighed out, lye of its own; scents dosed and capped.
PartPlan plan_part(const BatchPlan& batch, const targets::Part& part, const PartSize& size,
                   const std::optional<oils::Shelf>& shelf);

/// Puts a portion of a shared lye in the place of the part's own lye.
void take_portion(PartPlan& plan, const core::LyePortion& portion, const core::Scales& scales);

/// Doses scents by the portions' oils and caps them by their certificates (batch_scent.cpp).
/// Errors: InputError where no limit is entered.
std::vector<ScentPlan> plan_scents(const PartPlan& plan, const core::Recipe& without,
                                   const core::Scales& scales);

}  // namespace barwright::batch
