#pragma once

// The two concave parts that sureness puts into forms.

#include <memory>
#include <vector>

#include "solver/problem.hpp"

namespace barwright::solver {

/// -(sum of (x_i sizes_i)^2)^(1/2): what independent lots of the oils take from a sum, where
/// sizes_i is the reserve that oil i alone would need. Touching planes by the Cauchy-Schwarz
/// inequality.
std::shared_ptr<const Concave> lot_cone(std::vector<double> sizes);

/// Readings of one figure under many sets of constants: reading m is the least of its planes
/// constant + row . x. Rows can be shared between tails that differ in constants only.
struct Readings {
  std::size_t oils = 0;
  std::size_t planes = 1;                           ///< per reading
  std::shared_ptr<const std::vector<double>> rows;  ///< readings * planes * oils
  std::vector<double> constants;                    ///< readings * planes
};

/// Returns the mean of the lowest (1 - share) of the readings (the conditional value at risk of
/// Rockafellar and Uryasev 2000; recalled): where it is at least 0, no less than `share` of the
/// readings are. A minimum over weightings of concave functions, so concave; its touching plane is
/// the weighted sum of the planes that count.
std::shared_ptr<const Concave> lowest_readings(Readings readings, double share);

}  // namespace barwright::solver
