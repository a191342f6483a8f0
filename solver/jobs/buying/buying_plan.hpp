#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "oils/books/price_list.hpp"
#include "solver/optimise/problem.hpp"
#include "solver/optimise/search.hpp"

namespace barwright::solver {

/// One bar of a range, as the plan sees it.
struct PlannedBar {
  Problem problem;       ///< over all oils of the plan; its goals are not looked at
  double oil_grams = 0;  ///< of all batches together
};

/// Stepped delivery: flat, and free from a sum of goods on.
struct Delivery {
  double flat = 0;
  double free_over = kInfinity;
  double of(double goods) const { return goods <= 0 || goods >= free_over ? 0 : flat; }
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
  double most_cash = kInfinity;  ///< delivered
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
  bool proved = false;  ///< found: no plan costs less cash; not found: there is none
  std::vector<Buy> buys;
  double goods = 0, delivery = 0;
  std::vector<std::vector<int>> steps;  ///< per bar and oil; cheapest by worth for these packs
  std::vector<double> used_grams;       ///< per oil
  std::vector<double> left_grams;       ///< per oil, of stock and packs
  long tried = 0;                       ///< purchases put to the test
  double cash() const { return goods + delivery; }
};

/// Returns the purchase of least cash with which all bars can be made. Sets of oils are tried by a
/// proved bound on their cash (packs cut to measure), then purchases within each from the cheapest
/// on; each one passed over is proved too little. Gives up, and says so, after `most_tried`.
BuyingPlan plan_buying(const BuyingQuestion& question, const SearchOptions& options = {},
                       long most_tried = 20000);

}  // namespace barwright::solver
