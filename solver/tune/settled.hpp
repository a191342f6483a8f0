#pragma once

#include <span>
#include <vector>

namespace barwright::tune {

/// How well several runs agree on one figure.
struct Agreement {
  double r_hat = 1;      ///< split R-hat: 1 where halves of all runs are alike
  double effective = 0;  ///< how many independent draws they are worth
};

/// Returns the agreement of runs of equal length: one row per run (Gelman and others, Bayesian Data
/// Analysis, 3rd edition 2013, 11.4 and 11.5: split runs, Geyer's initial pairs).
Agreement agreement(std::span<const std::vector<double>> runs);

}  // namespace barwright::tune
