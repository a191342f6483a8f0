#include "solver/jobs/buying/free_delivery.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace barwright::jobs {
namespace {

constexpr std::size_t kMostSums = 200'000;
constexpr double kGrain = kSameMoney / 4;  // cells to tell sums apart by

}  // namespace

FreeDelivery::FreeDelivery(const Delivery& delivery, const std::vector<double>& prices,
                           optimise::Allowance* allowance)
    : delivery_(delivery) {
  sums_.push_back({});
  if (!std::isfinite(delivery.free_over)) return;
  std::set<long long> seen;
  // Sums one hair apart fall into neighbouring cells.
  const auto is_new = [&](double money) {
    const long long cell = std::llround(money / kGrain);
    const auto near = seen.lower_bound(cell - 4);
    if (near != seen.end() && *near <= cell + 4) return false;
    seen.insert(cell);
    return true;
  };
  for (std::size_t at = 0; at < sums_.size(); ++at) {
    for (std::size_t pack = 0; pack < prices.size(); ++pack) {
      const double money = sums_[at].money + prices[pack];
      if (prices[pack] <= 0 || money >= delivery.flat - kSameMoney || !is_new(money)) continue;
      if (sums_.size() == kMostSums) {
        complete_ = false;
        break;
      }
      sums_.push_back({money, at, pack});
    }
    if (allowance != nullptr) allowance->spend(prices.size());
    if (allowance != nullptr && allowance->used_up())
      complete_ = complete_ && at + 1 == sums_.size();
    if (!complete_) break;
  }
  for (std::size_t at = 0; at < sums_.size(); ++at) order_.push_back(at);
  std::sort(order_.begin(), order_.end(),
            [&](std::size_t a, std::size_t b) { return sums_[a].money < sums_[b].money; });
}

const FreeDelivery::Sum* FreeDelivery::beyond(double goods) const {
  if (delivery_.of(goods) <= 0) return nullptr;
  const auto first = std::partition_point(order_.begin(), order_.end(), [&](std::size_t at) {
    return goods + sums_[at].money < delivery_.free_over - kSameMoney;
  });
  return first == order_.end() ? nullptr : &sums_[*first];
}

double FreeDelivery::least_goods(double goods) const {
  const Sum* more = beyond(goods);
  return more == nullptr ? goods : goods + more->money;
}

std::vector<std::size_t> FreeDelivery::packs_beyond(double goods) const {
  std::vector<std::size_t> out;
  for (const Sum* sum = beyond(goods); sum != nullptr && sum != &sums_.front();
       sum = &sums_[sum->before])
    out.push_back(sum->pack);
  return out;
}

double FreeDelivery::least_cash(double goods) const {
  if (!complete_) return delivery_.least_cash(goods);
  const double paid = least_goods(goods);
  return paid + delivery_.of(paid);
}

}  // namespace barwright::jobs
