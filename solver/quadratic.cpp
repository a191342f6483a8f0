// Active sets for  min c.v + v'Hv/2  with rows and columns between bounds, H = 2 sum w_j g_j g_j'
// of low rank. Every column and row is either held (its value at a bound, its multiplier free) or
// released (its value free, its multiplier 0). The released columns and held rows, S, give the
// system
//
//   K (v_F, -y_R) = right side,   K = M_SS,   M = [H A'; A 0],
//
// whose inverse is kept and changed by one or two members at a time (bordering). Driving a member e
// means pushing its held value or its multiplier while all else in S stays in balance; every other
// member then moves linearly, and the first to reach its own limit changes sides too.
//  - A node starts from its parent's optimum, which is still in balance though a changed bound is
//    broken: drive each broken released member onto its bound (the dual method of Goldfarb and
//    Idnani 1983, in the bounded form; recalled). Nothing has to be made feasible first.
//  - The first node starts at a feasible vertex of the simplex and drives each held member with a
//    multiplier of the wrong sign off its bound (the primal method; recalled).
// H may be singular: when a change would leave K singular, the driven member and the one that stops
// it change sides together, which is exactly a simplex pivot. With H = 0 both methods are the
// simplex. When an oil comes in, its coefficient leaves the count row; the row as it was stays as
// an extra member `former` until its multiplier has gone to 0, so that balance is never lost.

#include <algorithm>
#include <cmath>

#include "solver/engine.hpp"
#include "solver/inverse.hpp"
#include "solver/kernels.hpp"

namespace barwright::solver {
namespace {

constexpr double kSingular = 1e-7;  // of K, in units where the largest H_jj and A_rj are 1
constexpr double kBroken = 1e-9;    // bounds, per unit of size
constexpr double kWrong = 1e-9;     // multipliers, in units of the largest H_jj

class Quadratic final : public Engine {
 public:
  Quadratic(const Relaxation& relaxation, const Region& region);

  void load(const Basis& basis, int came_in) override;
  Basis basis() const override;
  void column_changed(int column) override { bound_changed(column); }
  void row_changed(int row) override { bound_changed(n_ + row); }
  void left_count(int oil) override;
  void rows_added() override { load(basis(), -1); }
  Outcome solve(double cutoff) override;
  std::span<const double> point() const override { return {value_.data(), std::size_t(n_)}; }
  std::span<const double> multipliers() const override { return y_; }
  double stiffness(int column) const override;

 private:
  int former() const { return n_ + m_; }
  bool in_s(int e) const { return place_[std::size_t(e)] >= 0; }
  bool held(int e) const { return (e < n_) != in_s(e); }
  double low(int e) const;
  double high(int e) const;
  const double* h(int j) const { return h_.data() + std::size_t(j) * std::size_t(n_); }
  const double* a(int e) const { return a_.data() + std::size_t(e - n_) * std::size_t(n_); }
  double m(int e, int f) const;
  void copy_rows();
  void bound_changed(int e);
  bool factor();            ///< K's inverse from S anew; false: singular
  void column_of_m(int e);  ///< M_Se into k_
  bool toggle(int e);       ///< in or out of S; false: K would be singular
  bool toggle_both(int e, int f);
  void refresh();         ///< every value and multiplier from S and the held sides
  void direction(int e);  ///< rates of all per unit push of e
  void step(int e, double by);
  void take_sides();
  /// out += f * row, over the columns.
  void add(double* out, double f, const double* row) const { axpy(std::size_t(n_), f, row, out); }
  void cold_start();
  bool balanced() const;  ///< no multiplier has the wrong sign
  double wrongness(int e) const;
  double brokenness(int e, double& direction) const;
  Outcome mend(double cutoff);  ///< dual: until nothing is broken
  Outcome improve();            ///< primal: until no multiplier is wrong
  bool drive_onto(int p, double s);
  bool drive_off(int p, double s);
  double worth() const;
  void read(bool ray, int p, double s);

  const Relaxation& relaxation_;
  const Region& region_;
  std::unique_ptr<Engine> vertex_;
  int n_ = 0, m_ = 0;
  double scale_ = 1, constant_ = 0;
  std::vector<double> h_, c_, a_;
  double former_low_ = 0, former_high_ = 0;
  bool former_alive_ = false;
  std::vector<int> s_, place_;
  std::vector<char> up_;            // held at its upper bound
  std::vector<double> value_;       // per member
  std::vector<double> multiplier_;  // per member
  std::vector<double> rate_;  // per member: of the value if released, of the multiplier if held
  Inverse inverse_;
  std::vector<double> k_, z_, gradient_, side_, ratio_, pace_;
  std::vector<int> spread_;
  std::vector<const double*> rows_;
  std::vector<double> y_;
  bool dead_ = false;   // a bound could not be followed: y_ holds the ray
  bool stale_ = false;  // a held value has moved: refresh() before use
  bool ready_ = false;  // value_ and multiplier_ belong to S
  bool empty_ = false;  // the cold start found no feasible vertex
  int budget_ = 0;
  int since_factor_ = 0;
};

Quadratic::Quadratic(const Relaxation& relaxation, const Region& region)
    : relaxation_(relaxation),
      region_(region),
      vertex_(make_simplex(relaxation, region)),
      n_(region.columns) {
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

double Quadratic::low(int e) const {
  if (e < n_) return region_.low[std::size_t(e)];
  return e == former() ? former_low_ : region_.row_low[std::size_t(e - n_)];
}
double Quadratic::high(int e) const {
  if (e < n_) return region_.high[std::size_t(e)];
  return e == former() ? former_high_ : region_.row_high[std::size_t(e - n_)];
}
double Quadratic::m(int e, int f) const {
  if (e < n_) return f < n_ ? h(e)[f] : a(f)[e];
  return f < n_ ? a(e)[f] : 0;
}

void Quadratic::copy_rows() {
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
  ratio_.resize(members);
  gradient_.assign(std::size_t(n_), 0.0);
  y_.assign(std::size_t(m_), 0.0);
  former_alive_ = false;
  former_low_ = -kInfinity;
  former_high_ = kInfinity;
  s_.clear();
}

void Quadratic::load(const Basis& basis, int came_in) {
  copy_rows();
  if (came_in >= 0 && region_.count_row >= 0) {
    // As the parent saw it; left_count below brings the row up to date.
    a_[std::size_t(region_.count_row) * std::size_t(n_) + std::size_t(came_in)] =
        region_.count_coefficient[std::size_t(came_in)];
  }
  empty_ = dead_ = false;
  for (std::int16_t mark : basis) {
    const int e = mark >= 0 ? mark : -1 - mark;
    if (e >= n_ + m_) continue;
    if (mark >= 0) {
      place_[std::size_t(e)] = int(s_.size());
      s_.push_back(e);
    } else {
      up_[std::size_t(e)] = 1;
    }
  }
  ready_ = !basis.empty() && factor();
  if (!ready_) return;
  refresh();
  ready_ = balanced();
  if (came_in >= 0) left_count(came_in);
}

Basis Quadratic::basis() const {
  Basis out;
  const bool former_in = in_s(former()),
             count_in = region_.count_row >= 0 && in_s(n_ + region_.count_row);
  for (int e : s_) {
    if (e != former())
      out.push_back(std::int16_t(e));
    else if (!count_in)
      out.push_back(std::int16_t(n_ + region_.count_row));
  }
  for (int e = 0; e < n_ + m_; ++e)
    if (held(e) && up_[std::size_t(e)]) out.push_back(std::int16_t(-1 - e));
  if (former_in && !count_in) out.push_back(std::int16_t(-1 - (n_ + region_.count_row)));
  return out;
}

// A released member whose bound moves is looked after by the next solve(). A held one has to go
// along: let into S with its multiplier as it stands, it is half way through drive_onto().
void Quadratic::bound_changed(int e) {
  if (!ready_ || !held(e) || dead_) return;
  const std::size_t p = std::size_t(e);
  const double to = up_[p] ? high(e) : low(e);
  if (to == value_[p]) return;
  const double s = to > value_[p] ? 1 : -1;
  if (stale_ || (s < 0) != (up_[p] != 0) || e >= n_ || !toggle(e)) {
    stale_ = true;
    return;
  }
  budget_ = 100;
  dead_ = !drive_onto(e, s);
}

void Quadratic::left_count(int oil) {
  if (!ready_ || region_.count_row < 0) return;
  const int c = n_ + region_.count_row;
  double* now = a_.data() + std::size_t(region_.count_row) * std::size_t(n_);
  if (in_s(c)) {
    if (in_s(former())) {
      ready_ = false;  // two generations at once: start anew
      return;
    }
    std::copy(now, now + n_, a_.begin() + std::ptrdiff_t(m_) * n_);
    former_high_ = region_.row_high[std::size_t(region_.count_row)] + region_.count_scale;
    former_low_ = region_.row_low[std::size_t(region_.count_row)];
    former_alive_ = true;
    const std::size_t f = std::size_t(former()), cc = std::size_t(c);
    place_[f] = place_[cc];
    s_[std::size_t(place_[f])] = former();
    place_[cc] = -1;
    up_[f] = up_[cc];
    value_[f] = value_[cc];
    multiplier_[f] = multiplier_[cc];
    multiplier_[cc] = 0;
  }
  now[oil] = 0;
  double at = 0;
  for (int j = 0; j < n_; ++j) at += now[j] * value_[std::size_t(j)];
  value_[std::size_t(c)] = at;
}

bool Quadratic::factor() {
  const std::size_t size = s_.size();
  inverse_.resize(size);
  since_factor_ = 0;
  for (std::size_t i = 0; i < size; ++i)
    for (std::size_t j = 0; j < size; ++j) inverse_.row(i)[j] = m(s_[i], s_[j]);
  return inverse_.invert(1e-9) && inverse_.largest() < 1 / kSingular;
}

void Quadratic::column_of_m(int e) {
  k_.resize(s_.size());
  for (std::size_t i = 0; i < s_.size(); ++i) k_[i] = m(s_[i], e);
}

bool Quadratic::toggle(int e) {
  ++since_factor_;
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

bool Quadratic::toggle_both(int e, int f) {
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

void Quadratic::refresh() {
  stale_ = false;
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

void Quadratic::direction(int e) {
  const std::size_t size = s_.size();
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

void Quadratic::step(int e, double by) {
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
void Quadratic::take_sides() {
  side_.resize(place_.size());
  for (int e = 0; e <= former(); ++e)
    side_[std::size_t(e)] =
        !held(e) || low(e) == high(e) ? 0.0 : (up_[std::size_t(e)] ? -1.0 : 1.0);
}

double Quadratic::brokenness(int e, double& s) const {
  const double v = value_[std::size_t(e)];
  const double below = low(e) - v, above = v - high(e);
  s = below > above ? 1 : -1;
  const double by = std::max(below, above);
  return by > kBroken * (1 + std::abs(v)) ? by : 0;
}

double Quadratic::wrongness(int e) const {
  if (!held(e) || low(e) == high(e)) return 0;
  const double d = multiplier_[std::size_t(e)];
  const double by = up_[std::size_t(e)] ? d : -d;
  return by > kWrong ? by : 0;
}

bool Quadratic::balanced() const {
  for (int e = 0; e <= former(); ++e)
    if (wrongness(e) > 100 * kWrong) return false;
  return true;
}

// Dual: pushes p's multiplier until its value is at its bound. False: nothing stops it, a ray.
bool Quadratic::drive_onto(int p, double s) {
  const std::size_t pp = std::size_t(p);
  take_sides();
  side_[pp] = 0;
  for (; budget_ > 0; --budget_) {
    direction(p);
    if (rate_[pp] < -kSingular) {  // not possible but for rounding
      ready_ = false;
      return true;
    }
    const double target = s > 0 ? low(p) : high(p);
    const double missing = (target - value_[pp]) * s;
    const double full = rate_[pp] > kSingular ? std::max(0.0, missing) / rate_[pp] : kInfinity;
    int stop = -1;
    const std::size_t members = std::size_t(former()) + 1;
    double first =
        ratios(members, s, 1e-11, side_.data(), rate_.data(), multiplier_.data(), ratio_.data());
    if (first < full) {  // of those that stop it first, the one that falls fastest
      double size = 0;
      for (std::size_t e = 0; e < members; ++e)
        if (ratio_[e] == first && std::abs(rate_[e]) > size) {
          size = std::abs(rate_[e]);
          stop = int(e);
        }
    } else {
      first = full;
    }
    if (first == kInfinity) {
      read(true, p, s);
      return false;
    }
    step(p, s * first);
    if (stop < 0) {
      value_[pp] = target;
      up_[pp] = s < 0;
      if (!toggle(p)) ready_ = false;
      return true;
    }
    multiplier_[std::size_t(stop)] = 0;
    side_[std::size_t(stop)] = 0;
    if (toggle(stop)) continue;
    up_[pp] = s < 0;
    if (!toggle_both(stop, p)) {
      ready_ = false;
      return true;
    }
    refresh();
    return true;
  }
  return true;
}

// Primal: pushes p's value off its bound until its multiplier is 0 or its other bound is reached.
bool Quadratic::drive_off(int p, double s) {
  const std::size_t pp = std::size_t(p);
  for (; budget_ > 0; --budget_) {
    direction(p);
    if (rate_[pp] < -kSingular) {
      ready_ = false;
      return true;
    }
    const double wrong = std::abs(multiplier_[pp]);
    const double full = rate_[pp] > kSingular ? wrong / rate_[pp] : kInfinity;
    const double across = s > 0 ? high(p) - value_[pp] : value_[pp] - low(p);
    double first = std::min(full, across), size = 0;
    int stop = -1;
    bool stop_up = false;
    for (int e = 0; e <= former(); ++e) {
      if (e == p || held(e)) continue;
      const double rate = s * rate_[std::size_t(e)];
      if (std::abs(rate) <= 1e-11) continue;
      const double v = value_[std::size_t(e)];
      const double room = rate > 0 ? high(e) - v : v - low(e);
      const double ratio = std::max(0.0, room) / std::abs(rate);
      if (ratio < first || (ratio == first && stop >= 0 && std::abs(rate) > size)) {
        first = ratio;
        size = std::abs(rate);
        stop = e;
        stop_up = rate > 0;
      }
    }
    if (first == kInfinity) return false;
    step(p, s * first);
    if (stop < 0) {
      if (across <= full) {
        up_[pp] = s > 0;
        value_[pp] = s > 0 ? high(p) : low(p);
        return true;
      }
      multiplier_[pp] = 0;
      if (!toggle(p)) ready_ = false;
      return true;
    }
    up_[std::size_t(stop)] = stop_up;
    value_[std::size_t(stop)] = stop_up ? high(stop) : low(stop);
    if (toggle(stop)) continue;
    if (!toggle_both(stop, p)) {
      ready_ = false;
      return true;
    }
    refresh();
    return true;
  }
  return true;
}

// Along direction(e) the value moves by the corner of K's inverse per unit of the multiplier.
double Quadratic::stiffness(int column) const {
  if (!in_s(column)) return 0;
  const std::size_t at = std::size_t(place_[std::size_t(column)]);
  return scale_ / (2 * std::max(inverse_.row(at)[at], kSingular));
}

double Quadratic::worth() const {
  // c.v + v'Hv/2 = (c.v + gradient.v)/2 with gradient = d + A'y on balance.
  double part[4] = {};  // four sums side by side
  for (std::size_t j = 0; j < std::size_t(n_); ++j)
    part[j & 3] += (c_[j] + multiplier_[j]) * value_[j];
  double sum = part[0] + part[1] + part[2] + part[3];
  for (int e = n_; e <= former(); ++e)
    if (in_s(e)) sum += multiplier_[std::size_t(e)] * value_[std::size_t(e)];
  return constant_ + scale_ * sum / 2;
}

Outcome Quadratic::mend(double cutoff) {
  while (--budget_ > 0 && ready_) {
    if (cutoff < kInfinity && worth() >= cutoff) return Outcome::cut_off;
    int worst = -1;
    double most = 0, s = 0;
    const auto look_at = [&](int e) {
      double side = 0;
      const double by = brokenness(e, side);
      if (by <= most) return;
      most = by;
      worst = e;
      s = side;
    };
    for (int e : s_)
      if (e < n_) look_at(e);
    for (int r = n_; r < former(); ++r)
      if (!in_s(r)) look_at(r);
    if (former_alive_ && !in_s(former())) look_at(former());
    if (worst < 0) return Outcome::solved;
    if (!drive_onto(worst, s)) return Outcome::empty;
  }
  return Outcome::gave_up;
}

Outcome Quadratic::improve() {
  while (--budget_ > 0 && ready_) {
    int worst = -1;
    double most = 0;
    for (int e = 0; e <= former(); ++e) {
      const double by = wrongness(e);
      if (by > most) {
        most = by;
        worst = e;
      }
    }
    if (worst < 0) return Outcome::solved;
    if (!drive_off(worst, up_[std::size_t(worst)] ? -1 : 1)) return Outcome::gave_up;
  }
  return Outcome::gave_up;
}

void Quadratic::cold_start() {
  copy_rows();
  vertex_->load({}, -1);
  const Outcome outcome = vertex_->solve(kInfinity);
  empty_ = outcome == Outcome::empty;
  if (outcome != Outcome::solved) {
    std::copy(vertex_->multipliers().begin(), vertex_->multipliers().end(), y_.begin());
    ready_ = false;
    return;
  }
  std::vector<char> basic(std::size_t(n_ + m_), 0);
  for (std::int16_t e : vertex_->basis()) basic[std::size_t(e)] = 1;
  const auto v = vertex_->point();
  for (int e = 0; e < n_ + m_; ++e) {
    const std::size_t p = std::size_t(e);
    double at = 0;
    if (e < n_)
      at = v[p];
    else
      for (int j = 0; j < n_; ++j) at += a(e)[j] * v[std::size_t(j)];
    value_[p] = at;
    up_[p] = std::abs(at - high(e)) < std::abs(at - low(e));
    if ((e < n_) == (basic[p] != 0)) {
      place_[p] = int(s_.size());
      s_.push_back(e);
    }
  }
  ready_ = factor();
  if (ready_) refresh();
}

Outcome Quadratic::solve(double cutoff) {
  if (dead_) return Outcome::empty;
  budget_ = 60 + 4 * (n_ + m_);
  if (ready_ && stale_) {
    refresh();
    if (!balanced()) ready_ = false;
  }
  Outcome outcome = Outcome::gave_up;
  if (ready_) outcome = mend(cutoff);
  if (!ready_ || (outcome == Outcome::gave_up && budget_ <= 0)) {
    budget_ = 60 + 4 * (n_ + m_);
    cold_start();
    if (!ready_) {
      value_.resize(std::size_t(n_ + m_ + 1));
      return empty_ ? Outcome::empty : Outcome::gave_up;
    }
    outcome = improve();
  }
  if (outcome == Outcome::empty) return outcome;  // the ray has been read
  if (ready_ && since_factor_ > 12) {
    ready_ = factor();
    if (ready_) refresh();
  }
  read(false, -1, 0);
  return outcome;
}

// Multipliers in the goal's own unit. A former count row says less than the row of today, so what
// it bears is put on today's. As a ray: p's own multiplier is s, the others move at their rates.
void Quadratic::read(bool ray, int p, double s) {
  std::fill(y_.begin(), y_.end(), 0.0);
  for (int e = n_; e <= former(); ++e) {
    double y = 0;
    if (ray)
      y = e == p ? s : (in_s(e) ? s * rate_[std::size_t(e)] : 0);
    else if (in_s(e))
      y = scale_ * multiplier_[std::size_t(e)];
    if (y != 0) y_[std::size_t(e == former() ? region_.count_row : e - n_)] += y;
  }
}

}  // namespace

std::unique_ptr<Engine> make_quadratic(const Relaxation& relaxation, const Region& region) {
  return std::make_unique<Quadratic>(relaxation, region);
}

}  // namespace barwright::solver
