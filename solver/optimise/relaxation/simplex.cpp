#include "solver/optimise/relaxation/simplex.hpp"

// The dual simplex method with bounded variables (Lemke 1954; bound flipping after Fourer 1994 and
// Maros 2003; recalled), on a condensed tableau: every basic variable as a linear form of the n
// non-basic ones. With 8 rows and 60 columns the tableau is 4 kB, a pivot a few hundred
// multiply-adds that the compiler vectorises; no factorisation is kept or updated. Each row r has
// its activity s_r as a variable. All variables have two finite bounds, so any basis is made dual
// feasible by putting each non-basic variable at the bound its reduced cost asks for: there is no
// phase 1, and every node of the tree starts warm. The tableau drifts with its pivots; nothing
// depends on that but speed, since bounds come from bound.cpp and blends from the checker.

#include <algorithm>
#include <cmath>

#include "solver/optimise/relaxation/kernels.hpp"

namespace barwright::optimise {
namespace {

constexpr double kPivot = 1e-9;     // smallest usable pivot
constexpr double kFeasible = 1e-9;  // bounds of the relaxation, per unit of its size
constexpr int kFresh = 60;          // pivots before the tableau is built anew

class Simplex final : public Engine {
 public:
  Simplex(const Relaxation& relaxation, const Region& region)
      : relaxation_(relaxation), region_(region), n_(region.columns) {}

  void load(const Basis& basis, int came_in) override;
  Basis basis() const override;
  void column_changed(int column) override { move(column); }
  void row_changed(int row) override { move(n_ + row); }
  void left_count(int oil) override;
  void rows_added() override;
  Outcome solve(double cutoff) override;
  std::span<const double> point() const override { return point_; }
  std::span<const double> multipliers() const override { return y_; }
  std::uint64_t work() const override { return work_; }

 private:
  double low(int var) const {
    return var < n_ ? region_.low[std::size_t(var)] : region_.row_low[std::size_t(var - n_)];
  }
  double high(int var) const {
    return var < n_ ? region_.high[std::size_t(var)] : region_.row_high[std::size_t(var - n_)];
  }
  double* row(int r) { return table_.data() + std::size_t(r) * std::size_t(n_); }
  double* cost_row() { return row(m_); }
  void build();
  void restore(const Basis& basis);
  void settle();  ///< puts every non-basic variable at the bound its reduced cost asks for
  void gather();  ///< the non-basic variables into resting_
  void basics();  ///< recomputes the basic variables
  void move(int var);
  void pivot(int r, int k);
  bool choose(int r, double violation, double direction, int& entering);
  void shift(int k, double to);
  void read_point();
  void read_multipliers();
  void read_ray(int r);
  int leaving(double& violation, double& direction) const;

  const Relaxation& relaxation_;
  const Region& region_;
  int n_ = 0, m_ = 0;
  std::vector<double> table_;    // (m + 1) x n, the last row the reduced costs
  std::vector<int> at_column_;   // variable per column
  std::vector<int> at_row_;      // variable per row
  std::vector<int> where_;       // per variable: row, or -1 - column
  std::vector<double> value_;    // per variable
  std::vector<double> resting_;  // per column
  std::vector<double> point_, y_;
  int since_build_ = 0;
  std::uint64_t work_ = 0;
  struct Candidate {
    double ratio, size;
    int column;
  };
  std::vector<Candidate> candidates_;
};

void Simplex::build() {
  m_ = int(region_.rows.size());
  work_ += 2 * std::uint64_t(m_ + 1) * std::uint64_t(n_);
  table_.resize(std::size_t(m_ + 1) * std::size_t(n_));
  for (int r = 0; r < m_; ++r)
    std::copy(region_.rows[std::size_t(r)].begin(), region_.rows[std::size_t(r)].end(), row(r));
  std::copy(relaxation_.cost.begin(), relaxation_.cost.end(), cost_row());
  at_column_.resize(std::size_t(n_));
  at_row_.resize(std::size_t(m_));
  resting_.resize(std::size_t(n_));
  where_.resize(std::size_t(n_ + m_));
  value_.resize(std::size_t(n_ + m_));
  for (int k = 0; k < n_; ++k) {
    at_column_[std::size_t(k)] = k;
    where_[std::size_t(k)] = -1 - k;
  }
  for (int r = 0; r < m_; ++r) {
    at_row_[std::size_t(r)] = n_ + r;
    where_[std::size_t(n_ + r)] = r;
  }
  y_.assign(std::size_t(m_), 0.0);
  since_build_ = 0;
}

void Simplex::restore(const Basis& basis) {
  std::vector<char> wanted(std::size_t(n_ + m_), 0);
  for (std::int16_t var : basis)
    if (var < n_ + m_) wanted[std::size_t(var)] = 1;
  // A row added since the basis was taken is basic.
  for (int var = n_ + int(basis.size()); var < n_ + m_; ++var) wanted[std::size_t(var)] = 1;
  for (std::int16_t var : basis) {
    if (var >= n_) continue;
    const int k = -1 - where_[std::size_t(var)];
    int best = -1;
    double most = 1e-7;
    for (int r = 0; r < m_; ++r) {
      if (wanted[std::size_t(at_row_[std::size_t(r)])]) continue;
      const double size = std::abs(row(r)[k]);
      if (size > most) {
        most = size;
        best = r;
      }
    }
    if (best >= 0) pivot(best, k);
  }
  since_build_ = 0;
}

void Simplex::settle() {
  const double* d = cost_row();
  for (int k = 0; k < n_; ++k) {
    const int var = at_column_[std::size_t(k)];
    value_[std::size_t(var)] = d[k] >= 0 ? low(var) : high(var);
  }
  basics();
}

void Simplex::gather() {
  for (std::size_t k = 0; k < resting_.size(); ++k)
    resting_[k] = value_[std::size_t(at_column_[k])];
}

void Simplex::basics() {
  gather();
  for (int r = 0; r < m_; ++r)
    value_[std::size_t(at_row_[std::size_t(r)])] = dot(std::size_t(n_), row(r), resting_.data());
}

void Simplex::load(const Basis& basis, int) {
  build();
  restore(basis);
  settle();
}

Basis Simplex::basis() const {
  Basis out;
  out.reserve(at_row_.size());
  for (int var : at_row_) out.push_back(std::int16_t(var));
  return out;
}

void Simplex::shift(int k, double to) {
  const int var = at_column_[std::size_t(k)];
  const double by = to - value_[std::size_t(var)];
  if (by == 0) return;
  value_[std::size_t(var)] = to;
  for (int r = 0; r < m_; ++r) value_[std::size_t(at_row_[std::size_t(r)])] += row(r)[k] * by;
}

void Simplex::move(int var) {
  if (where_[std::size_t(var)] >= 0) return;
  const int k = -1 - where_[std::size_t(var)];
  shift(k, cost_row()[k] >= 0 ? low(var) : high(var));
}

void Simplex::pivot(int r, int k) {
  work_ += std::uint64_t(m_ + 1) * std::uint64_t(n_);
  double* t = row(r);
  const double p = 1 / t[k];
  for (int j = 0; j < n_; ++j) t[j] *= -p;
  t[k] = p;
  for (int i = 0; i <= m_; ++i) {
    if (i == r) continue;
    double* u = row(i);
    const double f = u[k];
    if (f == 0) continue;
    u[k] = 0;
    axpy(std::size_t(n_), f, t, u);
  }
  const int in = at_column_[std::size_t(k)], out = at_row_[std::size_t(r)];
  at_column_[std::size_t(k)] = out;
  at_row_[std::size_t(r)] = in;
  where_[std::size_t(in)] = r;
  where_[std::size_t(out)] = -1 - k;
  ++since_build_;
}

// The count row's coefficient of `oil` becomes 0: s_new = s_old - q w_oil.
void Simplex::left_count(int oil) {
  const double q = region_.count_coefficient[std::size_t(oil)];
  const int s = n_ + region_.count_row;
  const int at_s = where_[std::size_t(s)], at_w = where_[std::size_t(oil)];
  if (at_s >= 0) {  // basic: subtract q times w's form
    double* t = row(at_s);
    if (at_w < 0) {
      t[-1 - at_w] -= q;
    } else {
      const double* w = row(at_w);
      for (int j = 0; j < n_; ++j) t[j] -= q * w[j];
    }
    value_[std::size_t(s)] -= q * value_[std::size_t(oil)];
    move(s);
    return;
  }
  const int k = -1 - at_s;  // every form's c s_old becomes c s_new + c q w
  if (at_w < 0) {
    for (int i = 0; i <= m_; ++i) row(i)[-1 - at_w] += q * row(i)[k];
  } else {
    double* w = row(at_w);
    const double rest = 1 - q * w[k];
    if (std::abs(rest) < 1e-6) {  // this basis is singular now: start from the rows
      load({}, -1);
      return;
    }
    for (int j = 0; j < n_; ++j) w[j] /= rest;
    for (int i = 0; i <= m_; ++i) {
      if (i == at_w) continue;
      const double f = q * row(i)[k];
      if (f == 0) continue;
      double* t = row(i);
      for (int j = 0; j < n_; ++j) t[j] += f * w[j];
    }
  }
  settle();
}

void Simplex::rows_added() { load(basis(), -1); }

int Simplex::leaving(double& violation, double& direction) const {
  int best = -1;
  violation = 0;
  for (int r = 0; r < m_; ++r) {
    const int var = at_row_[std::size_t(r)];
    const double v = value_[std::size_t(var)], lo = low(var), hi = high(var);
    const double below = lo - v, above = v - hi;
    const double by = std::max(below, above);
    if (by > violation && by > kFeasible * (1 + std::abs(v))) {
      violation = by;
      direction = below > above ? 1 : -1;
      best = r;
    }
  }
  return best;
}

// The ratio test: the column to enter for row r, after flipping those that may be passed.
bool Simplex::choose(int r, double violation, double direction, int& entering) {
  const double* t = row(r);
  const double* d = cost_row();
  candidates_.clear();
  for (int k = 0; k < n_; ++k) {
    const double a = direction * t[k];
    if (std::abs(a) <= kPivot) continue;
    const int var = at_column_[std::size_t(k)];
    const double lo = low(var), hi = high(var);
    if (lo == hi) continue;
    const bool up = value_[std::size_t(var)] == hi;
    if (up ? a > 0 : a < 0) continue;
    candidates_.push_back({std::max(0.0, up ? -d[k] : d[k]) / std::abs(a), std::abs(a), k});
  }
  double slope = violation;
  std::size_t left = candidates_.size();
  while (left > 0) {
    std::size_t best = 0;
    for (std::size_t c = 1; c < left; ++c) {
      const Candidate &x = candidates_[c], &y = candidates_[best];
      if (x.ratio < y.ratio || (x.ratio == y.ratio && x.size > y.size)) best = c;
    }
    const Candidate chosen = candidates_[best];
    const int var = at_column_[std::size_t(chosen.column)];
    slope -= chosen.size * (high(var) - low(var));
    if (slope <= 0) {
      entering = chosen.column;
      return true;
    }
    shift(chosen.column, value_[std::size_t(var)] == high(var) ? low(var) : high(var));
    candidates_[best] = candidates_[--left];
  }
  return false;
}

Outcome Simplex::solve(double cutoff) {
  if (since_build_ > kFresh) load(basis(), -1);
  for (int pivots = 0; pivots < 50 + 8 * m_; ++pivots) {
    work_ += 4 * std::uint64_t(n_ + m_);
    gather();
    if (relaxation_.constant + dot(std::size_t(n_), cost_row(), resting_.data()) >= cutoff) {
      read_multipliers();
      return Outcome::cut_off;
    }
    double violation = 0, direction = 0;
    const int r = leaving(violation, direction);
    if (r < 0) {
      read_point();
      read_multipliers();
      return Outcome::solved;
    }
    int k = -1;
    if (!choose(r, violation, direction, k)) {
      read_ray(r);
      return Outcome::empty;
    }
    const int out = at_row_[std::size_t(r)], in = at_column_[std::size_t(k)];
    const double to = direction > 0 ? low(out) : high(out);
    const double by = (to - value_[std::size_t(out)]) / row(r)[k];
    for (int i = 0; i < m_; ++i)
      if (i != r) value_[std::size_t(at_row_[std::size_t(i)])] += row(i)[k] * by;
    value_[std::size_t(in)] += by;
    value_[std::size_t(out)] = to;
    pivot(r, k);
  }
  read_point();
  read_multipliers();
  return Outcome::gave_up;
}

void Simplex::read_point() { point_.assign(value_.begin(), value_.begin() + n_); }

void Simplex::read_multipliers() {
  std::fill(y_.begin(), y_.end(), 0.0);
  for (int k = 0; k < n_; ++k) {
    const int var = at_column_[std::size_t(k)];
    if (var >= n_) y_[std::size_t(var - n_)] = cost_row()[k];
  }
}

// Row r reads b = sum_k t_k x_k, and b cannot reach its bound: with s_q = A_q v put in, a
// combination of the rows that no v of the region satisfies. Its sign is the one that makes the
// proof positive.
void Simplex::read_ray(int r) {
  std::fill(y_.begin(), y_.end(), 0.0);
  const int out = at_row_[std::size_t(r)];
  const double sign = value_[std::size_t(out)] < low(out) ? 1 : -1;
  if (out >= n_) y_[std::size_t(out - n_)] = sign;
  for (int k = 0; k < n_; ++k) {
    const int var = at_column_[std::size_t(k)];
    if (var >= n_) y_[std::size_t(var - n_)] = -sign * row(r)[k];
  }
}

}  // namespace

std::unique_ptr<Engine> make_simplex(const Relaxation& relaxation, const Region& region) {
  return std::make_unique<Simplex>(relaxation, region);
}

}  // namespace barwright::optimise
