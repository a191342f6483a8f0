#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/error.hpp"
#include "oils/library.hpp"

namespace barwright::oils {

/// How a supplier's table is to be read: written once, in lines "# key: value" above the table, or
/// (for a table left as it came) in a file beside it, "list.csv" -> "list.columns".
struct PriceColumns {
  std::string oil = "oil";      ///< heading of the product's column
  std::string pack = "pack";    ///< of the pack size, any unit: "5 kg", "2 x 1 L", "11 lb"
  std::string price = "price";  ///< of the price of one pack
  std::string currency;         ///< a label
  double tax = 0;               ///< fraction that comes on top of every price
  std::map<std::string, std::string> names;  ///< the supplier's name -> ours ("name X = shea")
};

/// One pack that can be bought.
struct PricedPack {
  std::string oil;      ///< library name
  std::string product;  ///< as the supplier calls it
  double grams = 0;
  double price = 0;  ///< of the pack, tax in it
  core::Place place;
  double per_kg() const { return price / grams * 1000; }
};

/// A row that was not taken, and why.
struct SkippedRow {
  core::Place place;
  std::string why;
};

struct PriceList {
  std::string file;
  std::string currency;
  std::vector<PricedPack> packs;  ///< in file order
  std::vector<SkippedRow> skipped;

  /// Returns the pack of an oil with the least price per kg, or null.
  const PricedPack* cheapest(const std::string& oil) const;
};

/// Returns the price list in a CSV file. A wrong row is an error at its line, or, when
/// `skip_wrong`, left out and named in `skipped`. Errors: InputError.
PriceList read_price_list(const std::string& path, const Library& library, bool skip_wrong);
/// The same from text; `columns_text` holds the lines of a file beside it, may be empty.
PriceList read_price_list_text(const std::string& text, const std::string& name,
                               const std::string& columns_text, const Library& library,
                               bool skip_wrong);

/// Whether shipping is spread over what was bought by weight or by value.
enum class Spread { weight, value };
/// Returns what each pack costs landed, currency units: its price and its part of the shipping, to
/// the cent, adding up. One per pack. Errors: core::Refusal for no packs.
std::vector<double> landed_prices(std::span<const PricedPack> packs, double shipping, Spread by);

}  // namespace barwright::oils
