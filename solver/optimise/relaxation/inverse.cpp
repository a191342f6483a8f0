#include "solver/optimise/relaxation/inverse.hpp"

// Scalar loops in a fixed order: wide registers would give other last digits on other machines.
#define EIGEN_DONT_VECTORIZE
#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <utility>

#include "solver/optimise/relaxation/kernels.hpp"

namespace barwright::optimise {

namespace {
using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
}  // namespace

void Inverse::resize(std::size_t size) {
  if (size > stride_) {
    std::vector<double> grown((size + 16) * (size + 16));
    for (std::size_t i = 0; i < size_; ++i)
      for (std::size_t j = 0; j < size_; ++j) grown[i * (size + 16) + j] = row(i)[j];
    data_ = std::move(grown);
    stride_ = size + 16;
    u_.resize(stride_);
  }
  size_ = size;
}

bool Inverse::invert(double tiny) {
  if (size_ == 0) return true;
  const Eigen::Index n = Eigen::Index(size_);
  Eigen::Map<Matrix, Eigen::Unaligned, Eigen::OuterStride<>> k(
      data_.data(), n, n, Eigen::OuterStride<>(Eigen::Index(stride_)));
  const Eigen::PartialPivLU<Matrix> factors(k);
  if (!(factors.matrixLU().diagonal().cwiseAbs().minCoeff() > tiny)) return false;
  k = factors.inverse();
  return true;
}

void Inverse::apply(std::span<const double> in, std::span<double> out) const {
  for (std::size_t i = 0; i < size_; ++i) out[i] = 0;
  for (std::size_t k = 0; k < size_; ++k)  // by columns: the matrix is symmetric
    if (in[k] != 0) axpy(size_, in[k], row(k), out.data());
}

double Inverse::largest() const {
  double most = 0;
  for (std::size_t i = 0; i < size_; ++i)
    for (std::size_t j = 0; j < size_; ++j) most = std::max(most, std::abs(row(i)[j]));
  return most;
}

bool Inverse::add(std::span<const double> k, double corner, double sign, double tiny) {
  if (u_.size() < size_) u_.resize(size_ + 16);
  apply(k, std::span<double>(u_.data(), size_));
  double rest = corner;
  for (std::size_t i = 0; i < size_; ++i) rest -= k[i] * u_[i];
  if (!(sign * rest > tiny)) return false;
  const std::vector<double>& u = u_;
  const std::size_t old = size_;
  std::vector<double> kept;
  if (old + 1 > stride_) {
    kept = u_;
    resize(old + 1);
    for (std::size_t i = 0; i < old; ++i) u_[i] = kept[i];
  }
  size_ = old + 1;
  const double p = 1 / rest;
  rank_one(old, p, u.data(), data_.data(), stride_);
  for (std::size_t i = 0; i < old; ++i) row(i)[old] = -p * u[i];
  double* last = row(old);
  for (std::size_t j = 0; j < old; ++j) last[j] = -p * u[j];
  last[old] = p;
  return true;
}

bool Inverse::remove(std::size_t i, double sign, double tiny) {
  const double corner = row(i)[i];
  if (!(sign * corner > tiny)) return false;
  const std::size_t last = size_ - 1;
  if (i != last) {
    for (std::size_t j = 0; j < size_; ++j) std::swap(row(i)[j], row(last)[j]);
    for (std::size_t j = 0; j < size_; ++j) std::swap(row(j)[i], row(j)[last]);
  }
  rank_one(last, -1 / corner, row(last), data_.data(), stride_);
  size_ = last;
  return true;
}

}  // namespace barwright::optimise
