#pragma once

#include <map>
#include <optional>
#include <string>

#include "core/trade/cost.hpp"
#include "oils/records/library.hpp"

namespace barwright::books {

/// What a bar is to be sold at: a margin wished, or a price to be judged.
struct SellingWish {
  std::optional<double> margin;  ///< fraction of the price without tax
  std::optional<core::Cents> price;
};

/// A workshop's costs beside the shelf.
struct Costs {
  std::string file, currency;
  std::map<std::string, double> per_kg;  ///< lye, additives, oils without a lot price: by name
  core::Workshop workshop;
  double sales_tax = 0;  ///< fraction, in what the buyer pays
  std::optional<SellingWish> wholesale, retail;
};

/// Returns the costs of a file:
///   costs: Weighbridge Yard
///   currency: EUR
///   prices: {sodium hydroxide: 4.20 per kg, titanium dioxide: 9 for 500 g}
///   packaging: 0.22              # per bar
///   labour: {per-batch: 150 min, per-bar: 2 min, per-hour: 18}
///   overhead: {per-batch: 12, share: 8 %}
///   unsellable: 5 %              # or: 2 bars
///   sales-tax: 19 %
///   wholesale: {margin: 35 %}
///   retail: {price: 6.50}
/// Errors: InputError at file, line and column.
Costs read_costs(const std::string& path, const oils::Library& library);
Costs read_costs_text(const std::string& text, const std::string& name,
                      const oils::Library& library);

}  // namespace barwright::books
