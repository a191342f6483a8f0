#pragma once

#include <functional>
#include <span>
#include <vector>

#include "solver/tune/dice.hpp"

namespace barwright::tune {

/// Log likelihood of unknowns that are independent normal numbers beforehand.
using LogLikelihood = std::function<double(std::span<const double>)>;

/// One run's place.
struct Stand {
  std::vector<double> at;
  double log_likelihood = 0;
};

/// Moves the unknowns of `block` (all where it is empty) by one step of elliptical slice sampling
/// (Murray, Adams and MacKay 2010).
void elliptical_step(Stand& stand, const LogLikelihood& likelihood,
                     std::span<const std::size_t> block, Dice& dice);

/// A Student-t law near the one looked for, along a few directions of the unknowns (orthogonal, of
/// length 1): those that something is known of. Beforehand each is a normal number by itself.
struct Fit {
  std::vector<std::vector<double>> directions;
  std::vector<double> mean, spread;  ///< along each
  double freedom = 8;
};

/// Moves along the directions of a fit (Nishihara, Murray and Adams 2014): right whatever the fit,
/// and quick where the fit is near.
void fitted_step(Stand& stand, const LogLikelihood& likelihood, const Fit& fit, Dice& dice);
/// Moves across them, by a plain step: what little is known of the rest turns freely.
void crossing_step(Stand& stand, const LogLikelihood& likelihood, const Fit& fit, Dice& dice);

/// Returns one move of one unknown within a law known but for a factor: slice sampling, stepping
/// out once on each side and shrinking (Neal 2003).
double moved_along(double at, const std::function<double(double)>& log_law, Dice& dice);

}  // namespace barwright::tune
