#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/trade/money.hpp"

namespace barwright::core {

/// What a line of a batch's cost is for.
enum class CostKind { oils, lye, additives, packaging, labour, overhead };
/// Returns "oils", "lye", ...
const char* word(CostKind kind);

/// One line that costs money, before rounding.
struct CostItem {
  CostKind kind = CostKind::oils;
  std::string what;
  double amount = 0;     ///< currency units, for the batch
  bool known = true;     ///< false: no price is known, `amount` counts as nothing
  std::string how = {};  ///< "2640 g at 6.90 per kg"
};

/// What a batch costs beside what goes into the pot.
struct Workshop {
  double packaging_per_bar = 0;     ///< currency units per bar that can be sold
  double minutes_per_batch = 0;     ///< of work
  double minutes_per_bar = 0;       ///< of work, per bar cut
  double pay_per_hour = 0;          ///< currency units
  double overhead_per_batch = 0;    ///< currency units
  double overhead_share = 0;        ///< fraction of everything else
  double unsellable_share = 0;      ///< fraction of the bars cut
  std::optional<int> unsellable{};  ///< bars, instead of the share
};

struct CostLine {
  CostKind kind;
  std::string what;
  Cents cents = 0;
  bool known = true;
  std::string how;
};

/// What a batch and a bar cost. Lines add up to `total` to the cent.
struct BatchCost {
  std::vector<CostLine> lines;
  Cents total = 0;
  int bars = 0;             ///< cut
  int sellable = 0;         ///< of them
  double per_bar = 0;       ///< currency units per bar that can be sold, not rounded
  double lost_per_bar = 0;  ///< of it, what the bars that cannot be sold add
  bool complete = true;     ///< every line has a price

  Cents of(CostKind kind) const;
};

/// Returns the cost of a batch of `bars` bars. Bars that cannot be sold: the share of the bars
/// rounded up to whole ones. Errors: Refusal for no bars, no bar to sell, a negative figure.
BatchCost batch_cost(std::span<const CostItem> pot, const Workshop& workshop, int bars);

/// Margin is of the price: (price - cost) / price, prices without sales tax.
/// Returns the price without tax that keeps `margin` (fraction, below 1), not rounded.
double price_for_margin(double cost, double margin);
/// Returns the margin (fraction) of a price without tax; negative when it is below cost.
double margin_of_price(double cost, double price);

/// A price a bar is sold at.
struct SellingPrice {
  Cents shown = 0;    ///< what the buyer pays, sales tax in it
  double net = 0;     ///< currency units without the tax
  double margin = 0;  ///< fraction of `net`, as the whole cents give it
  double earned = 0;  ///< net - cost, currency units per bar
};
/// Returns the least price in whole cents, sales tax (fraction) in it, that keeps the margin.
SellingPrice least_price(double cost, double margin, double sales_tax);
/// Returns what a shown price leaves.
SellingPrice judged_price(double cost, Cents shown, double sales_tax);

}  // namespace barwright::core
