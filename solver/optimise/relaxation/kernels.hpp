#pragma once

// The loops that take the time. Element by element and without fused multiply-add, so that wide and
// narrow registers give the same bytes on every machine; only the speed differs.

#include <cstddef>

namespace barwright::optimise {

/// y += f * x
void axpy(std::size_t n, double f, const double* x, double* y);

/// Returns the sum of x[j] * y[j], added in a fixed order (eight sums side by side).
double dot(std::size_t n, const double* x, const double* y);

/// y += sum over k of f[k] * x[k][0..n), added in the order of k.
void combine(std::size_t n, std::size_t count, const double* f, const double* const* x, double* y);

/// m[i][0..n) += (f * u[i]) * u[0..n) for i < n, rows `stride` apart.
void rank_one(std::size_t n, double f, const double* u, double* m, std::size_t stride);

/// out[e] = how far until left[e], which is above 0 on side[e] (1, -1; 0: of any sign), falls to 0
/// at s * rate[e] per unit: infinity where it falls by no more than `tiny`. Returns the least.
double ratios(std::size_t n, double s, double tiny, const double* side, const double* rate,
              const double* left, double* out);

}  // namespace barwright::optimise
