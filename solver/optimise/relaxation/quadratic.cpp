#include "solver/optimise/relaxation/quadratic.hpp"

// Active sets for  min c.v + v'Hv/2  with rows and columns between bounds, H = 2 sum w_j g_j g_j'
// of low rank. Driving a member (a column or a row; balance.hpp keeps the system) moves all others
// linearly while they stay in balance, and the first to reach its own limit changes sides too.
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

#include "solver/optimise/relaxation/balance.hpp"
#include "solver/optimise/relaxation/kernels.hpp"
#include "solver/optimise/relaxation/simplex.hpp"

namespace barwright::optimise {
namespace {

class Quadratic final : public Engine, private Balance {
 public:
  Quadratic(const Relaxation& relaxation, const Region& region)
      : Balance(relaxation, region), vertex_(make_simplex(relaxation, region)) {}

  void load(const Basis& basis, int came_in) override;
  Basis basis() const override;
  void column_changed(int column) override { bound_changed(column); }
  void row_changed(int row) override { bound_changed(n_ + row); }
  void left_count(int oil) override;
  void rows_added() override { load(basis(), -1); }
  Outcome solve(double cutoff) override;
  std::span<const double> point() const override { return {value_.data(), std::size_t(n_)}; }
  std::span<const double> multipliers() const override { return y_; }
  double stiffness(int column) const override { return Balance::stiffness(column); }
  std::uint64_t work() const override { return done_ + vertex_->work(); }

 private:
  void bound_changed(int e);
  void cold_start();
  Outcome mend(double cutoff);  ///< dual: until nothing is broken
  Outcome improve();            ///< primal: until no multiplier is wrong
  bool drive_onto(int p, double s);
  bool drive_off(int p, double s);
  void read(bool ray, int p, double s);

  std::unique_ptr<Engine> vertex_;
  std::vector<double> y_, ratio_;
  bool dead_ = false;   // a bound could not be followed: y_ holds the ray
  bool ready_ = false;  // value_ and multiplier_ belong to S
  bool empty_ = false;  // the cold start found no feasible vertex
  int budget_ = 0;
};

void Quadratic::load(const Basis& basis, int came_in) {
  copy_rows();
  ratio_.resize(place_.size());
  y_.assign(std::size_t(m_), 0.0);
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
  ratio_.resize(place_.size());
  y_.assign(std::size_t(m_), 0.0);
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

}  // namespace barwright::optimise
