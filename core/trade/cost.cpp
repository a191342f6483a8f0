#include "core/trade/cost.hpp"

#include <cmath>

#include "core/units/error.hpp"
#include "core/units/format.hpp"

namespace barwright::core {
namespace {

void not_negative(double value, const char* what) {
  if (!(value >= 0) || !std::isfinite(value)) {
    throw Refusal(std::string("The ") + what + " is below zero or not a number.",
                  "Give nothing or more.");
  }
}

void check(const Workshop& shop) {
  not_negative(shop.packaging_per_bar, "packaging of a bar");
  not_negative(shop.minutes_per_batch, "work on a batch");
  not_negative(shop.minutes_per_bar, "work on a bar");
  not_negative(shop.pay_per_hour, "pay of an hour");
  not_negative(shop.overhead_per_batch, "overhead of a batch");
  not_negative(shop.overhead_share, "overhead's share");
  not_negative(shop.unsellable_share, "share of bars that cannot be sold");
}

}  // namespace

const char* word(CostKind kind) {
  switch (kind) {
    case CostKind::oils:
      return "oils";
    case CostKind::lye:
      return "lye";
    case CostKind::additives:
      return "additives";
    case CostKind::packaging:
      return "packaging";
    case CostKind::labour:
      return "labour";
    case CostKind::overhead:
      return "overhead";
  }
  return "";
}

Cents BatchCost::of(CostKind kind) const {
  Cents sum = 0;
  for (const auto& line : lines) {
    if (line.kind == kind) sum += line.cents;
  }
  return sum;
}

BatchCost batch_cost(std::span<const CostItem> pot, const Workshop& shop, int bars) {
  check(shop);
  if (bars < 1) throw Refusal("The batch has no bars.", "State how many bars it is cut into.");
  BatchCost out;
  out.bars = bars;
  const int lost = shop.unsellable.value_or(
      static_cast<int>(std::ceil(std::min(1.0, shop.unsellable_share) * bars - 1e-9)));
  if (lost < 0 || lost >= bars) {
    throw Refusal("Of " + std::to_string(bars) + " bars " + std::to_string(lost) +
                      " cannot be sold: no bar is left to carry the cost.",
                  "Lower 'unsellable', or make more bars.");
  }
  out.sellable = bars - lost;

  std::vector<CostItem> items(pot.begin(), pot.end());
  for (const auto& item : items) not_negative(item.amount, "cost of an item");
  if (shop.packaging_per_bar > 0) {
    items.push_back(
        {CostKind::packaging, "packaging", shop.packaging_per_bar * out.sellable, true,
         std::to_string(out.sellable) + " bars at " + money_text(cents(shop.packaging_per_bar))});
  }
  const double minutes = shop.minutes_per_batch + shop.minutes_per_bar * bars;
  if (minutes > 0 && shop.pay_per_hour > 0) {
    items.push_back(
        {CostKind::labour, "work", minutes / 60 * shop.pay_per_hour, true,
         fixed(minutes, 0) + " min at " + money_text(cents(shop.pay_per_hour)) + " per hour"});
  }
  double sum = 0;
  for (const auto& item : items) sum += item.amount;
  const double overhead = shop.overhead_per_batch + shop.overhead_share * sum;
  if (overhead > 0) {
    std::string how;
    if (shop.overhead_per_batch > 0)
      how = money_text(cents(shop.overhead_per_batch)) + " per batch";
    if (shop.overhead_share > 0) {
      how += (how.empty() ? "" : " and ") + percent_text(shop.overhead_share) + " of the rest";
    }
    items.push_back({CostKind::overhead, "overhead", overhead, true, how});
  }
  std::vector<double> amounts;
  for (const auto& item : items) amounts.push_back(item.amount);
  const auto parts = rounded_together(amounts);
  for (std::size_t i = 0; i < items.size(); ++i) {
    out.lines.push_back({items[i].kind, items[i].what, parts[i], items[i].known, items[i].how});
    out.total += parts[i];
    out.complete = out.complete && items[i].known;
  }
  out.per_bar = units(out.total) / out.sellable;
  out.lost_per_bar = out.per_bar - units(out.total) / bars;
  return out;
}

double price_for_margin(double cost, double margin) {
  if (!(margin < 1) || !std::isfinite(margin)) {
    throw Refusal(
        "A margin of " + percent_text(margin) + " of the price leaves nothing for the cost.",
        "Give a margin below 100 %. (A mark-up on the cost may be more: it is another "
        "figure.)");
  }
  return cost / (1 - margin);
}

double margin_of_price(double cost, double price) {
  if (!(price > 0)) throw Refusal("The price is not above zero.", "Give a price.");
  return (price - cost) / price;
}

SellingPrice judged_price(double cost, Cents shown, double sales_tax) {
  not_negative(sales_tax, "sales tax");
  SellingPrice out;
  out.shown = shown;
  out.net = units(shown) / (1 + sales_tax);
  out.margin = margin_of_price(cost, out.net);
  out.earned = out.net - cost;
  return out;
}

SellingPrice least_price(double cost, double margin, double sales_tax) {
  not_negative(sales_tax, "sales tax");
  return judged_price(cost, cents_up(price_for_margin(cost, margin) * (1 + sales_tax)), sales_tax);
}

}  // namespace barwright::core
