#pragma once

#include <cstddef>
#include <vector>

#include "solver/jobs/buying/buying_plan.hpp"

namespace barwright::jobs {

/// What more packs can do for an order that pays its delivery: the sums below the flat charge that
/// packs on offer add up to. Only those can be cheaper than the charge itself.
class FreeDelivery {
 public:
  /// `prices` of all packs on offer. The work of adding them up is charged to the allowance.
  FreeDelivery(const Delivery& delivery, const std::vector<double>& prices,
               optimise::Allowance* allowance);

  /// Returns what is paid for goods at least, once goods of this sum are bought: the sum itself, or
  /// with the packs that free the delivery.
  double least_goods(double goods) const;
  /// Returns those packs, as indices into `prices`; none: the sum itself is the cheaper.
  std::vector<std::size_t> packs_beyond(double goods) const;
  /// Returns a proved bound on the cash of any purchase that holds goods of this sum.
  double least_cash(double goods) const;

 private:
  struct Sum {
    double money = 0;
    std::size_t before = 0;  ///< the sum this one adds a pack to
    std::size_t pack = 0;
  };
  /// The least sum that frees the delivery and costs less than it; null: none.
  const Sum* beyond(double goods) const;

  Delivery delivery_;
  std::vector<Sum> sums_;           ///< as met; the first is nothing
  std::vector<std::size_t> order_;  ///< by money
  bool complete_ = true;            ///< no sum is missing
};

}  // namespace barwright::jobs
