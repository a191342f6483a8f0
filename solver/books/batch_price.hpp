#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/trade/cost.hpp"
#include "oils/books/stock.hpp"
#include "solver/books/costs.hpp"
#include "solver/books/make_plan.hpp"

namespace barwright::books {

/// What a batch costs, in the costs' own currency, and what was left out of it.
struct BatchPrice {
  std::string name;
  core::BatchCost cost;
  std::vector<std::string> remarks;
};

/// Returns what a batch still to be made costs: its oils at the lots of the shelf they would come
/// from, the rest at the cost file's prices. Errors: InputError.
BatchPrice price_of_plan(const MakePlan& plan, int bars, const Costs& costs,
                         const oils::Shelf* shelf);

/// Returns what a recorded batch cost, at what its own lots cost. Errors: InputError.
BatchPrice price_of_batch(const oils::BatchRecord& batch, const Costs& costs,
                          const oils::Books& books);

/// A price of a bar, wished by a margin or judged.
struct WayToSell {
  std::string name;
  bool wished = false;  ///< by a margin, not a price
  core::SellingPrice price;
};

/// Returns the wish answered at a cost per bar; nothing where there is none. `tax`: fraction, in
/// what the buyer pays.
std::optional<WayToSell> way_to_sell(const std::string& name, const SellingWish& wish,
                                     double per_bar, double tax);

}  // namespace barwright::books
