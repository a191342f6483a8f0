#pragma once

#include <span>
#include <vector>

#include "oils/books/price_list.hpp"
#include "solver/jobs/buying/buying_plan.hpp"

namespace barwright::jobs {

/// What a plan's packs and bars cost at the maker's door: each pack with its part of the delivery.
struct LandedPlan {
  std::vector<double> buys;  ///< per BuyingPlan::buys, all its packs; they add to the cash out
  std::vector<double> buy_per_kg;  ///< per BuyingPlan::buys
  std::vector<double> left_grams;  ///< per oil, of what is bought: stock is used up first
  std::vector<double> left_worth;  ///< per oil, at what it cost landed
  std::vector<double> bar_cost;    ///< per bar of the range, oils of one bar made
};

/// Returns a found plan with its delivery spread over the packs, not rounded. Oils from stock count
/// at BuyingQuestion::worth_per_kg; an oil of which there is both counts at the mean by weight.
/// `bars_made` is how many bars of each kind the batches give.
LandedPlan landed_plan(const BuyingQuestion& question, const BuyingPlan& plan,
                       std::span<const int> bars_made, oils::Spread by);

}  // namespace barwright::jobs
