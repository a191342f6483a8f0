#include "solver/tune/dice.hpp"

#include <cmath>

#include "core/units/seeded.hpp"

namespace barwright::tune {

double Dice::uniform() { return core::fraction_of(bits_()); }

double Dice::normal() {
  if (kept_) {
    kept_ = false;
    return other_;
  }
  // Marsaglia's polar method: two at a time.
  for (;;) {
    const double a = 2 * uniform() - 1, b = 2 * uniform() - 1;
    const double square = a * a + b * b;
    if (!(square < 1 && square > 0)) continue;
    const double factor = std::sqrt(-2 * std::log(square) / square);
    kept_ = true;
    other_ = b * factor;
    return a * factor;
  }
}

double Dice::gamma(double shape) {
  // Marsaglia and Tsang 2000.
  const double d = shape - 1.0 / 3, c = 1 / std::sqrt(9 * d);
  for (;;) {
    const double x = normal();
    const double v = std::pow(1 + c * x, 3);
    if (!(v > 0)) continue;
    if (std::log(1 - uniform()) < x * x / 2 + d - d * v + d * std::log(v)) return d * v;
  }
}

}  // namespace barwright::tune
