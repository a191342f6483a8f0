#pragma once

// The concave parts that sureness puts into forms.

#include <memory>
#include <vector>

#include "solver/optimise/problem.hpp"

namespace barwright::optimise {

/// What varying lots of the oils take from a difference between a bar of shares x and one of shares
/// `there`: sqrt(sum of (|x_i - there_i| sizes_i + besides_i)^2 + rest^2). Empty vectors stand for
/// zeros. sizes_i is the reserve that oil i alone would need.
struct LotReserve {
  std::vector<double> sizes;
  std::vector<double> there = {};
  std::vector<double> besides = {};
  double rest = 0;
};

/// Readings of a difference under many sets of constants: a reading is the least of its planes,
/// and plane p is
///   constants_p + sum over i of d_i (d_i >= 0 ? above : below)_pi,   d = x - there.
struct Readings {
  std::size_t oils = 0;
  std::size_t planes = 1;         ///< per reading
  std::vector<double> there;      ///< per oil
  std::vector<double> above;      ///< readings * planes * oils
  std::vector<double> below;      ///< no less than above; empty: the same
  std::vector<double> constants;  ///< readings * planes
};

/// Returns -reserve(x), followed by planes through the chain rule (the reserve is convex).
std::shared_ptr<const Concave> less_reserve(LotReserve reserve);

/// One way a difference may be read: its least favourable readings, less the reserve for lots.
struct Reading {
  std::shared_ptr<const Readings> readings;
  LotReserve reserve;
  std::vector<double> shift = {};  ///< added to the constants, per reading; empty: nothing
};

/// Returns the least of several ways of reading, each counted as the mean of the lowest
/// (1 - share) of its readings (the conditional value at risk of Rockafellar and Uryasev 2000;
/// recalled) less its reserve. Where a way is at least 0, no less than `share` of its readings are.
/// A minimum over weightings of concave functions, so concave; the touching plane is the weighted
/// sum of the planes that count.
std::shared_ptr<const Concave> least_reading(std::vector<Reading> ways, double share);

}  // namespace barwright::optimise
