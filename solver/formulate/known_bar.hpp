#pragma once

#include <string>
#include <vector>

#include "oils/records/oil.hpp"
#include "targets/model/composition.hpp"
#include "targets/model/model.hpp"

namespace barwright::formulate {

/// An oil of a known bar.
struct KnownPart {
  oils::Oil oil;
  double share = 0;  ///< fraction of its oils
};

/// The bar in the hand, worked out.
struct KnownBar {
  std::string name;
  targets::Composition composition;
  targets::BarSettings settings;
  double saponification_value = 0;  ///< mg KOH/g, typical
  double iodine_value = 0;          ///< g I2 per 100 g, typical
  double price_per_kg = 0;          ///< of its oils; meaningless unless `priced`
  std::vector<KnownPart> parts;     ///< its oils, for how their lots vary
  bool priced = false;              ///< every oil of it has a price
};

}  // namespace barwright::formulate
