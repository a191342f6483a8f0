#include "solver/optimise/relaxation/balance.hpp"

#include <algorithm>
#include <cmath>

#include "solver/optimise/relaxation/kernels.hpp"

namespace barwright::optimise {

Balance::Balance(const Relaxation& relaxation, const Region& region)
    : region_(region), n_(region.columns) {
  const std::size_t n = std::size_t(n_);
  h_.assign(n * n, 0.0);
  c_ = relaxation.cost;
  for (const Square& square : relaxation.squares)
    for (std::size_t i = 0; i < n; ++i) {
      const double f = 2 * square.weight * square.g[i];
      if (f == 0) continue;
      for (std::size_t j = 0; j < n; ++j) h_[i * n + j] += f * square.g[j];
      c_[i] -= f * square.point;
    }
  constant_ = relaxation.constant;
  for (const Square& square : relaxation.squares)
    constant_ += square.weight * square.point * square.point;
  scale_ = 0;
  for (std::size_t i = 0; i < n; ++i) scale_ = std::max(scale_, h_[i * n + i]);
  if (scale_ <= 0) scale_ = 1;
  for (double& v : h_) v /= scale_;
  for (double& v : c_) v /= scale_;
}

double Balance::low(int e) const {
  if (e < n_) return region_.low[std::size_t(e)];
  return e == former() ? former_low_ : region_.row_low[std::size_t(e - n_)];
}

double Balance::high(int e) const {
  if (e < n_) return region_.high[std::size_t(e)];
  return e == former() ? former_high_ : region_.row_high[std::size_t(e - n_)];
}

double Balance::m(int e, int f) const {
  if (e < n_) return f < n_ ? h(e)[f] : a(f)[e];
  return f < n_ ? a(e)[f] : 0;
}

void Balance::add(double* out, double f, const double* row) const {
  axpy(std::size_t(n_), f, row, out);
}

void Balance::copy_rows() {
  // Rows are only ever appended; of those that are there, only the count row changes.
  const int known = m_;
  m_ = int(region_.rows.size());
  a_.resize(std::size_t(m_ + 1) * std::size_t(n_));
  for (int r = 0; r < m_; ++r)
    if (r >= known || r == region_.count_row)
      std::copy(region_.rows[std::size_t(r)].begin(), region_.rows[std::size_t(r)].end(),
                a_.begin() + std::ptrdiff_t(r) * n_);
  std::fill_n(a_.begin() + std::ptrdiff_t(m_) * n_, n_, 0.0);
  const std::size_t members = std::size_t(n_ + m_ + 1);
  place_.assign(members, -1);
  up_.assign(members, 0);
  value_.assign(members, 0.0);
  multiplier_.assign(members, 0.0);
  rate_.assign(members, 0.0);
  gradient_.assign(std::size_t(n_), 0.0);
  former_alive_ = false;
  former_low_ = -kInfinity;
  former_high_ = kInfinity;
  s_.clear();
}

bool Balance::factor() {
  const std::size_t size = s_.size();
  inverse_.resize(size);
  count(2 * size * size * size);
  since_factor_ = 0;
  for (std::size_t i = 0; i < size; ++i)
    for (std::size_t j = 0; j < size; ++j) inverse_.row(i)[j] = m(s_[i], s_[j]);
  return inverse_.invert(1e-9) && inverse_.largest() < 1 / kSingular;
}

void Balance::column_of_m(int e) {
  k_.resize(s_.size());
  for (std::size_t i = 0; i < s_.size(); ++i) k_[i] = m(s_[i], e);
}

bool Balance::toggle(int e) {
  ++since_factor_;
  count(2 * s_.size() * s_.size());
  const std::size_t p = std::size_t(e);
  if (!in_s(e)) {
    column_of_m(e);
    if (!inverse_.add(k_, m(e, e), e < n_ ? 1 : -1, kSingular)) return false;
    place_[p] = int(s_.size());
    s_.push_back(e);
    return true;
  }
  const std::size_t at = std::size_t(place_[p]);
  if (!inverse_.remove(at, e < n_ ? 1 : -1, kSingular)) return false;
  s_[at] = s_.back();
  place_[std::size_t(s_[at])] = int(at);
  s_.pop_back();
  place_[p] = -1;
  return true;
}

bool Balance::toggle_both(int e, int f) {
  for (int member : {e, f}) {
    const std::size_t p = std::size_t(member);
    if (!in_s(member)) {
      place_[p] = int(s_.size());
      s_.push_back(member);
    } else {
      const std::size_t at = std::size_t(place_[p]);
      s_[at] = s_.back();
      place_[std::size_t(s_[at])] = int(at);
      s_.pop_back();
      place_[p] = -1;
    }
  }
  return factor();
}

void Balance::refresh() {
  stale_ = false;
  count(s_.size() * (s_.size() + std::size_t(n_ + m_)) + 4 * std::size_t(n_ + m_));
  spread_.clear();  // held columns that are not 0
  for (int e = 0; e <= former(); ++e) {
    const std::size_t p = std::size_t(e);
    if (!held(e)) {
      multiplier_[p] = 0;
      continue;
    }
    value_[p] = up_[p] ? high(e) : low(e);
    if (e < n_ && value_[p] != 0) spread_.push_back(e);
  }
  // Right side: -(c + H v_N) for the columns of S, bound - A v_N for its rows.
  double* g = gradient_.data();
  std::copy(c_.begin(), c_.end(), g);
  for (int j : spread_) add(g, value_[std::size_t(j)], h(j));
  k_.resize(s_.size());
  for (std::size_t i = 0; i < s_.size(); ++i) {
    const int e = s_[i];
    if (e < n_) {
      k_[i] = -g[e];
      continue;
    }
    double rest = value_[std::size_t(e)];
    for (int j : spread_) rest -= a(e)[j] * value_[std::size_t(j)];
    k_[i] = rest;
  }
  z_.resize(s_.size());
  rows_.resize(s_.size());
  inverse_.apply(k_, z_);
  for (std::size_t i = 0; i < s_.size(); ++i) {
    const int e = s_[i];
    (e < n_ ? value_ : multiplier_)[std::size_t(e)] = e < n_ ? z_[i] : -z_[i];
    rows_[i] = e < n_ ? h(e) : a(e);
    if (e < n_) spread_.push_back(e);
  }
  combine(std::size_t(n_), s_.size(), z_.data(), rows_.data(), g);
  std::copy(g, g + n_, multiplier_.begin());
  for (int e : s_)
    if (e < n_) multiplier_[std::size_t(e)] = 0;
  for (int e = n_; e <= former(); ++e) {
    if (in_s(e) || (e == former() && !former_alive_)) continue;
    double at = 0;
    for (int j : spread_) at += a(e)[j] * value_[std::size_t(j)];
    value_[std::size_t(e)] = at;
  }
}

void Balance::direction(int e) {
  const std::size_t size = s_.size();
  count(size * (size + std::size_t(n_)) + std::size_t(m_) * size + 4 * std::size_t(n_ + m_));
  z_.resize(size);
  double extra = 0;
  if (in_s(e)) {
    const double* row = inverse_.row(std::size_t(place_[std::size_t(e)]));
    std::copy(row, row + size, z_.begin());
  } else {
    column_of_m(e);
    inverse_.apply(k_, z_);
    extra = e < n_ ? 1 : -1;
    if (e < n_)
      for (double& z : z_) z = -z;
  }
  double* g = rate_.data();  // the columns' multipliers; those of S are put right below
  std::fill_n(g, n_, 0.0);
  if (extra != 0) add(g, extra, e < n_ ? h(e) : a(e));
  rows_.resize(size);
  for (std::size_t i = 0; i < size; ++i) rows_[i] = s_[i] < n_ ? h(s_[i]) : a(s_[i]);
  combine(std::size_t(n_), size, z_.data(), rows_.data(), g);
  spread_.clear();  // the columns that move, and how fast
  pace_.clear();
  for (std::size_t i = 0; i < size; ++i) {
    rate_[std::size_t(s_[i])] = s_[i] < n_ ? z_[i] : -z_[i];
    if (s_[i] >= n_) continue;
    spread_.push_back(s_[i]);
    pace_.push_back(z_[i]);
  }
  for (int r = n_; r <= former(); ++r) {
    if (in_s(r)) continue;
    double at = 0;
    if (r != former() || former_alive_) {
      const double* row = a(r);
      if (extra > 0) at = row[e];
      for (std::size_t i = 0; i < spread_.size(); ++i) at += row[spread_[i]] * pace_[i];
    }
    rate_[std::size_t(r)] = at;
  }
}

void Balance::step(int e, double by) {
  (held(e) ? value_ : multiplier_)[std::size_t(e)] += by;
  const double kept = multiplier_[std::size_t(e)];
  add(multiplier_.data(), by, rate_.data());
  for (int f : s_) {
    if (f >= n_) continue;
    multiplier_[std::size_t(f)] = f == e ? kept : 0;
    value_[std::size_t(f)] += rate_[std::size_t(f)] * by;
  }
  for (int r = n_; r <= former(); ++r)
    (in_s(r) ? multiplier_ : value_)[std::size_t(r)] += rate_[std::size_t(r)] * by;
}

// side_: 1 held at its lower bound, -1 at its upper, 0 released, or fixed and so of any sign.
void Balance::take_sides() {
  side_.resize(place_.size());
  for (int e = 0; e <= former(); ++e)
    side_[std::size_t(e)] =
        !held(e) || low(e) == high(e) ? 0.0 : (up_[std::size_t(e)] ? -1.0 : 1.0);
}

double Balance::brokenness(int e, double& s) const {
  const double v = value_[std::size_t(e)];
  const double below = low(e) - v, above = v - high(e);
  s = below > above ? 1 : -1;
  const double by = std::max(below, above);
  return by > kBroken * (1 + std::abs(v)) ? by : 0;
}

double Balance::wrongness(int e) const {
  if (!held(e) || low(e) == high(e)) return 0;
  const double d = multiplier_[std::size_t(e)];
  const double by = up_[std::size_t(e)] ? d : -d;
  return by > kWrong ? by : 0;
}

bool Balance::balanced() const {
  for (int e = 0; e <= former(); ++e)
    if (wrongness(e) > 100 * kWrong) return false;
  return true;
}

// Along direction(e) the value moves by the corner of K's inverse per unit of the multiplier.
double Balance::stiffness(int column) const {
  if (!in_s(column)) return 0;
  const std::size_t at = std::size_t(place_[std::size_t(column)]);
  return scale_ / (2 * std::max(inverse_.row(at)[at], kSingular));
}

double Balance::worth() const {
  // c.v + v'Hv/2 = (c.v + gradient.v)/2 with gradient = d + A'y on balance.
  double part[4] = {};  // four sums side by side
  for (std::size_t j = 0; j < std::size_t(n_); ++j)
    part[j & 3] += (c_[j] + multiplier_[j]) * value_[j];
  double sum = part[0] + part[1] + part[2] + part[3];
  for (int e = n_; e <= former(); ++e)
    if (in_s(e)) sum += multiplier_[std::size_t(e)] * value_[std::size_t(e)];
  return constant_ + scale_ * sum / 2;
}

}  // namespace barwright::optimise
