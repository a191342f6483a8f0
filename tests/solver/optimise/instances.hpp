#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "solver/optimise/problem.hpp"

namespace barwright::testing {

enum class Wish {
  cheapest,
  most_of_a_property,
  nearest_point,
  nearest_in_feel,
  cheapest_then_feel
};

/// How the lots of the oils count in the ranges. All but `none` widen each range by what worst lots
/// take from the hidden blend, so that it fits at every level.
enum class LotsCount { none, typical, likely, worst_case };

/// What a made-up problem looks like. Oils, fatty acids and properties are the library's and the
/// model's; stock, prices and the hidden blend that keeps it feasible are drawn.
struct InstanceSpec {
  int oils = 60;  ///< beyond the library, lots of its oils with profiles slightly off
  int most_oils = 6;
  int ranges = 6;          ///< two-sided, on properties without bends
  double narrowest = 1.5;  ///< width of a range, points
  double widest = 4.0;
  int least = 4;  ///< steps, when used
  int steps = 100;
  Wish wish = Wish::cheapest;
  bool equal_prices = false;   ///< prices from three values only
  double duplicates = 0;       ///< share of oils that are copies of another, price included
  bool impossible = false;     ///< one range moved away from every blend near the hidden one
  bool soluble_floor = false;  ///< a floor on the soluble share at 38 C (concave)
  bool kinks = false;          ///< a floor and a ceiling on lather, with castor's help
  bool cost_ceiling = true;
  LotsCount lots = LotsCount::none;
  std::uint64_t seed = 1;
};

/// Deterministic: the same spec gives the same problem on every machine.
optimise::Problem make_instance(const InstanceSpec& spec);

/// Doubles from bits by our own mapping: std distributions differ between libraries.
struct Uniform {
  explicit Uniform(std::uint64_t seed) : bits(seed) {}
  double operator()() { return double(bits() >> 11) * 0x1.0p-53; }  ///< [0, 1)
  double operator()(double from, double to) { return from + (to - from) * (*this)(); }
  int whole(int from, int to) {
    return from + int((*this)() * (to - from + 1));
  }  ///< both included
  std::mt19937_64 bits;
};

}  // namespace barwright::testing
