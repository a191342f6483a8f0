#include "solver/optimise/relaxation/kernels.hpp"

#include <cstring>
#include <limits>

// GCC compiles each loop for several register widths and picks one when the program starts.
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && \
    !defined(__SANITIZE_ADDRESS__)
#define BARWRIGHT_WIDE __attribute__((target_clones("arch=x86-64-v3", "default")))
#else
#define BARWRIGHT_WIDE
#endif

namespace barwright::optimise {

namespace {

// Four doubles; narrower machines take them in two halves.
typedef double Four __attribute__((vector_size(32)));
constexpr std::size_t kFour = 4;

// Numbers stand where they stand: nothing is aligned to four of them.
inline Four load(const double* at) {
  Four four;
  std::memcpy(&four, at, sizeof four);
  return four;
}
inline void store(double* at, Four four) { std::memcpy(at, &four, sizeof four); }

}  // namespace

BARWRIGHT_WIDE void axpy(std::size_t n, double f, const double* x, double* __restrict y) {
  std::size_t j = 0;
  for (; j + kFour <= n; j += kFour) store(y + j, load(y + j) + f * load(x + j));
  for (; j < n; ++j) y[j] += f * x[j];
}

BARWRIGHT_WIDE double dot(std::size_t n, const double* x, const double* y) {
  Four sums = {0, 0, 0, 0}, more = {0, 0, 0, 0};
  std::size_t j = 0;
  for (; j + 2 * kFour <= n; j += 2 * kFour) {
    sums += load(x + j) * load(y + j);
    more += load(x + j + kFour) * load(y + j + kFour);
  }
  sums += more;
  double sum = (sums[0] + sums[1]) + (sums[2] + sums[3]);
  for (; j < n; ++j) sum += x[j] * y[j];
  return sum;
}

BARWRIGHT_WIDE void combine(std::size_t n, std::size_t count, const double* f,
                            const double* const* x, double* __restrict y) {
  std::size_t j = 0;
  for (; j + 4 * kFour <= n; j += 4 * kFour) {
    Four a = load(y + j), b = load(y + j + 4), c = load(y + j + 8), d = load(y + j + 12);
    for (std::size_t k = 0; k < count; ++k) {
      const double* row = x[k] + j;
      const double scale = f[k];
      a += scale * load(row);
      b += scale * load(row + 4);
      c += scale * load(row + 8);
      d += scale * load(row + 12);
    }
    store(y + j, a);
    store(y + j + 4, b);
    store(y + j + 8, c);
    store(y + j + 12, d);
  }
  for (; j + kFour <= n; j += kFour) {
    Four a = load(y + j);
    for (std::size_t k = 0; k < count; ++k) a += f[k] * load(x[k] + j);
    store(y + j, a);
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
    std::size_t j = 0;
    for (; j + kFour <= n; j += kFour) store(row + j, load(row + j) + scale * load(u + j));
    for (; j < n; ++j) row[j] += scale * u[j];
  }
}

BARWRIGHT_WIDE double ratios(std::size_t n, double s, double tiny, const double* side,
                             const double* rate, const double* left, double* __restrict out) {
  constexpr double kNever = std::numeric_limits<double>::infinity();
  const Four never = {kNever, kNever, kNever, kNever}, none = {0, 0, 0, 0};
  Four least = never;
  std::size_t e = 0;
  for (; e + kFour <= n; e += kFour) {
    const Four falls = -s * load(side + e) * load(rate + e);
    Four room = load(side + e) * load(left + e);
    room = room > none ? room : none;
    const Four ratio = falls > tiny ? room / falls : never;
    least = ratio < least ? ratio : least;
    store(out + e, ratio);
  }
  double first = kNever;
  for (std::size_t k = 0; k < kFour; ++k) first = least[k] < first ? least[k] : first;
  for (; e < n; ++e) {
    const double falls = -s * side[e] * rate[e], room = side[e] * left[e];
    out[e] = falls > tiny ? (room > 0 ? room : 0) / falls : kNever;
    first = out[e] < first ? out[e] : first;
  }
  return first;
}

}  // namespace barwright::optimise
