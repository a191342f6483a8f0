#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace barwright::optimise {

/// The inverse of a small symmetric matrix, kept while members come and go (bordering).
class Inverse {
 public:
  std::size_t size() const { return size_; }
  void resize(std::size_t size);
  double* row(std::size_t i) { return data_.data() + i * stride_; }
  const double* row(std::size_t i) const { return data_.data() + i * stride_; }

  /// Replaces the matrix written into row() by its inverse (Eigen, LU with row pivots). False: a
  /// pivot at or below `tiny`; the content is then lost.
  bool invert(double tiny);
  /// out = inverse * in.
  void apply(std::span<const double> in, std::span<double> out) const;
  /// The largest absolute entry.
  double largest() const;
  /// The matrix gains a last row and column k with corner `corner`. What remains of the corner must
  /// exceed `tiny` with this sign; otherwise false, and nothing done.
  bool add(std::span<const double> k, double corner, double sign, double tiny);
  /// The matrix loses member i; the last takes its place. The same of the inverse's corner.
  bool remove(std::size_t i, double sign, double tiny);

 private:
  std::size_t size_ = 0, stride_ = 0;
  std::vector<double> data_, u_;
};

}  // namespace barwright::optimise
