#include "solver/kernels.hpp"

// GCC compiles each loop for several register widths and picks one when the program starts.
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && \
    !defined(__SANITIZE_ADDRESS__)
#define BARWRIGHT_WIDE __attribute__((target_clones("arch=x86-64-v3", "default"), optimize("O3")))
#else
#define BARWRIGHT_WIDE
#endif

namespace barwright::solver {

BARWRIGHT_WIDE void axpy(std::size_t n, double f, const double* x, double* __restrict y) {
  for (std::size_t j = 0; j < n; ++j) y[j] += f * x[j];
}

BARWRIGHT_WIDE void combine(std::size_t n, std::size_t count, const double* f,
                            const double* const* x, double* __restrict y) {
  constexpr std::size_t kBlock = 8;
  std::size_t j = 0;
  for (; j + kBlock <= n; j += kBlock) {
    double sum[kBlock];
    for (std::size_t b = 0; b < kBlock; ++b) sum[b] = y[j + b];
    for (std::size_t k = 0; k < count; ++k) {
      const double* row = x[k] + j;
      const double scale = f[k];
      for (std::size_t b = 0; b < kBlock; ++b) sum[b] += scale * row[b];
    }
    for (std::size_t b = 0; b < kBlock; ++b) y[j + b] = sum[b];
  }
  for (; j < n; ++j) {
    double sum = y[j];
    for (std::size_t k = 0; k < count; ++k) sum += f[k] * x[k][j];
    y[j] = sum;
  }
}

BARWRIGHT_WIDE void rank_one(std::size_t n, double f, const double* __restrict u,
                             double* __restrict m, std::size_t stride) {
  for (std::size_t i = 0; i < n; ++i) {
    const double scale = f * u[i];
    double* row = m + i * stride;
    for (std::size_t j = 0; j < n; ++j) row[j] += scale * u[j];
  }
}

}  // namespace barwright::solver
