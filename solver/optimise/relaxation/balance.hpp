#pragma once

// The system behind the active sets of quadratic.cpp, for  min c.v + v'Hv/2  with rows and columns
// between bounds, H = 2 sum w_j g_j g_j' of low rank. Every column and row is either held (its
// value at a bound, its multiplier free) or released (its value free, its multiplier 0). The
// released columns and held rows, S, give the system
//
//   K (v_F, -y_R) = right side,   K = M_SS,   M = [H A'; A 0],
//
// whose inverse is kept and changed by one or two members at a time (bordering). Driving a member e
// means pushing its held value or its multiplier while all else in S stays in balance; every other
// member then moves linearly, and the first to reach its own limit changes sides too.

#include <cstdint>
#include <span>
#include <vector>

#include "solver/optimise/relaxation/inverse.hpp"
#include "solver/optimise/relaxation/node.hpp"

namespace barwright::optimise {

/// Values and multipliers of all members, and how they move when one is pushed. A member is a
/// column (0 to n - 1), a row (n to n + m - 1) or former().
class Balance {
 public:
  /// References are kept: they must outlive the balance.
  Balance(const Relaxation& relaxation, const Region& region);

  /// As Engine::stiffness.
  double stiffness(int column) const;

 protected:
  static constexpr double kSingular = 1e-7;  ///< of K, where the largest H_jj and A_rj are 1
  static constexpr double kBroken = 1e-9;    ///< bounds, per unit of size
  static constexpr double kWrong = 1e-9;     ///< multipliers, in units of the largest H_jj

  int former() const { return n_ + m_; }
  bool in_s(int e) const { return place_[std::size_t(e)] >= 0; }
  bool held(int e) const { return (e < n_) != in_s(e); }
  double low(int e) const;
  double high(int e) const;
  const double* a(int e) const { return a_.data() + std::size_t(e - n_) * std::size_t(n_); }

  void copy_rows();    ///< from the region; S becomes empty
  bool factor();       ///< K's inverse from S anew; false: singular
  bool toggle(int e);  ///< in or out of S; false: K would be singular, nothing done
  bool toggle_both(int e, int f);
  void refresh();         ///< every value and multiplier from S and the held sides
  void direction(int e);  ///< rates of all per unit push of e
  void step(int e, double by);
  void take_sides();
  bool balanced() const;                              ///< no multiplier has the wrong sign
  double wrongness(int e) const;                      ///< of its multiplier; 0: right
  double brokenness(int e, double& direction) const;  ///< of its bounds, and the way back; 0: kept
  double worth() const;                               ///< the goal

  const Region& region_;
  int n_ = 0, m_ = 0;
  double scale_ = 1;  ///< the largest H_jj
  std::vector<double> a_;
  double former_low_ = 0, former_high_ = 0;
  bool former_alive_ = false;
  std::vector<int> s_, place_;
  std::vector<char> up_;            ///< held at its upper bound
  std::vector<double> value_;       ///< per member
  std::vector<double> multiplier_;  ///< per member
  std::vector<double> rate_;        ///< of the value if released, of the multiplier if held
  std::vector<double> side_;        ///< see take_sides()
  int since_factor_ = 0;
  bool stale_ = false;      ///< a held value has moved: refresh() before use
  std::uint64_t done_ = 0;  ///< multiply-adds so far, about

 private:
  const double* h(int j) const { return h_.data() + std::size_t(j) * std::size_t(n_); }
  double m(int e, int f) const;
  void column_of_m(int e);  ///< M_Se into k_
  void count(std::size_t multiply_adds) { done_ += multiply_adds; }
  /// out += f * row, over the columns.
  void add(double* out, double f, const double* row) const;

  double constant_ = 0;
  std::vector<double> h_, c_;
  Inverse inverse_;
  std::vector<double> k_, z_, gradient_, pace_;
  std::vector<int> spread_;
  std::vector<const double*> rows_;
};

}  // namespace barwright::optimise
