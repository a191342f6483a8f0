#include "solver/tune/latent.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace barwright::tune {
namespace {

// The share above z, exact far out.
double above(double z) { return std::erfc(z / std::numbers::sqrt2) / 2; }

// Where the share above is `tail`, at most 1/2: Newton's steps on its logarithm, which bends one
// way only, so that they come to it from one side.
double deviation_of_tail(double tail) {
  const double wanted = std::log(tail);
  double z = std::sqrt(std::max(0.0, -2 * (wanted + std::numbers::ln2)));
  for (int step = 0; step < 12; ++step) {
    const double share = above(z);
    const double density = std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi);
    const double move = (std::log(share) - wanted) * share / density;
    z += move;
    if (std::abs(move) < 1e-13) break;
  }
  return z;
}

}  // namespace

double normal_share(double z) { return std::erfc(-z / std::numbers::sqrt2) / 2; }

double half_normal(double z) {
  // The place with normal_share(z) of the half law below it: tail of the whole law halved.
  return deviation_of_tail(above(z) / 2);
}

double student4(double z) {
  // Shaw, "Sampling Student's T distribution", J. Comput. Finance 9(4), 2006: closed for 4 degrees
  // of freedom (recalled; held to the law's own share in the tests).
  const double tail = above(std::abs(z));  // both tails by symmetry
  const double a = std::sqrt(4 * tail * (1 - tail));
  if (!(a > 0)) return std::copysign(1e6, z);
  const double q = std::cos(std::acos(std::min(a, 1.0)) / 3) / a;
  return std::copysign(2 * std::sqrt(std::max(q - 1, 0.0)), z);
}

double normal_of_student4(double t) {
  // Beyond the tail the difference of two near halves would lose all digits: its first term serves.
  const double far = std::abs(t);
  const double tail = far < 1e3 ? student4_above(far) : 12 / (far * far * far * far);
  return std::copysign(deviation_of_tail(std::max(tail, 1e-300)), t);
}

double log_student4_density(double t) {
  // Gamma(5/2) / (Gamma(2) sqrt(4 pi)) = 3/8.
  return std::log(0.375) - 2.5 * std::log1p(t * t / 4);
}

double student4_above(double t) {
  const double s = t / std::sqrt(4 + t * t);
  return 0.5 - 0.75 * s + 0.25 * s * s * s;
}

double log_normal(double z, double median, double log_spread) {
  return median * std::exp(z * log_spread);
}

}  // namespace barwright::tune
