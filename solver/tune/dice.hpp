#pragma once

#include <cstdint>
#include <random>

namespace barwright::tune {

/// Drawn numbers that are the same on every machine.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : bits_(seed) {}
  /// Returns a number in [0, 1).
  double uniform();
  /// Returns a normal number.
  double normal();
  /// Returns a number of the gamma law of this shape (1 and above) and scale 1.
  double gamma(double shape);

 private:
  std::mt19937_64 bits_;
  bool kept_ = false;
  double other_ = 0;
};

}  // namespace barwright::tune
