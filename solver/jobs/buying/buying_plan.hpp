#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "oils/books/price_list.hpp"
#include "solver/optimise/problem.hpp"
#include "solver/optimise/search.hpp"

namespace barwright::jobs {

/// One bar of a range, as the plan sees it.
struct PlannedBar {
  optimise::Problem problem;  ///< over all oils of the plan; its goals are not looked at
  double oil_grams = 0;       ///< of all batches together
};

/// Two sums nearer than this are one: prices add up in any order.
inline constexpr double kSameMoney = 1e-9;

/// Stepped delivery: flat, and free from a sum of goods on.
struct Delivery {
  double flat = 0;
  double free_over = optimise::kInfinity;
  /// Returns what is paid for the way of these goods. A sum of prices may lie a hair below itself.
  double of(double goods) const { return goods <= 0 || goods >= free_over - kSameMoney ? 0 : flat; }
  /// Returns the least cash, delivered, for at least these goods.
  double least_cash(double goods) const {
    return goods <= 0 ? 0 : std::min(goods + of(goods), std::max(goods, free_over));
  }
};

/// What is asked of a buying plan.
struct BuyingQuestion {
  std::vector<PlannedBar> bars;
  std::vector<double> stock_grams;  ///< per oil, what is there
  /// Per oil, the packs it comes in (price and grams); none: cannot be bought.
  std::vector<std::vector<oils::PricedPack>> packs;
  std::vector<double> worth_per_kg;  ///< per oil, for what is used and left over
  int most_oils = 0;                 ///< different oils over the range; 0: no limit
  int most_new = -1;                 ///< of them, with nothing in stock; -1: no limit
  Delivery delivery;
  double most_cash = optimise::kInfinity;  ///< delivered
};

/// Packs of one kind to buy.
struct Buy {
  int oil = -1;
  int pack = -1;  ///< into BuyingQuestion::packs[oil]
  int count = 0;
};

/// What to buy, and what is made of it.
struct BuyingPlan {
  bool found = false;
  /// No purchase that makes the range costs less, delivered; infinite: none does. What was left
  /// undecided on the way counts only where nothing better settled it.
  double bound = -optimise::kInfinity;
  std::vector<Buy> buys;
  double goods = 0, delivery = 0;
  std::vector<std::vector<int>> steps;  ///< per bar and oil, of little worth: see make_of
  std::vector<double> used_grams;       ///< per oil
  std::vector<double> left_grams;       ///< per oil, of stock and packs
  long tried = 0;                       ///< purchases put to the test
  double cash() const { return goods + delivery; }
  /// Returns whether cash and bound are the same money as printed, to the cent; not found: whether
  /// no purchase at all makes the range within its limits.
  bool proved() const;
};

/// Returns the purchase of least cash with which all bars can be made. Sets of oils are tried by a
/// proved bound on their cash (packs cut to measure), then purchases within each from the cheapest
/// on; each one passed over is proved too little. Ends before that with the options' deadline or
/// allowance, and says so in its bound. Errors: std::invalid_argument as search().
BuyingPlan plan_buying(const BuyingQuestion& question, const optimise::SearchOptions& options = {});

}  // namespace barwright::jobs
