#pragma once

#include <span>
#include <string>
#include <vector>

#include "core/units/error.hpp"
#include "oils/books/list_columns.hpp"
#include "oils/books/list_table.hpp"
#include "oils/records/library.hpp"

namespace barwright::oils {

/// One pack that can be bought.
struct PricedPack {
  std::string oil;      ///< library name
  std::string product;  ///< as the supplier calls it
  double grams = 0;
  double price = 0;  ///< of the pack, tax in it
  core::Place place;
  std::string size = {};  ///< as the list writes it: "5 L"
  double per_kg() const { return price / grams * 1000; }
};

struct PriceList {
  std::string file;
  std::string currency;
  double tax = 0;                 ///< fraction that is in every price
  std::vector<PricedPack> packs;  ///< in file order
  std::vector<SkippedRow> skipped;

  /// Returns the pack of an oil with the least price per kg, or null.
  const PricedPack* cheapest(const std::string& oil) const;
};

/// Returns the price list in a CSV file. `mappings` is what the shelf says of such tables (see
/// open_list). A wrong row is an error at its line, or, when `skip_wrong`, left out and named in
/// `skipped`. Errors: InputError.
PriceList read_price_list(const std::string& path, const Library& library, bool skip_wrong,
                          std::span<const ListMapping> mappings = {});
/// The same from text; `columns_text` holds the lines of a file beside it, may be empty.
PriceList read_price_list_text(const std::string& text, const std::string& name,
                               const std::string& columns_text, const Library& library,
                               bool skip_wrong, std::span<const ListMapping> mappings = {});

/// Whether shipping (or a sum of tax) is spread over what was bought by weight or by value.
enum class Spread { weight, value };
/// Returns what each pack costs landed, currency units: its price and its part of the shipping, not
/// rounded, so that prices per kg are exact; core::rounded_together shows the sums to the cent. One
/// per pack. Errors: core::Refusal for no packs, or a weight that is negative or not a number.
std::vector<double> landed_prices(std::span<const PricedPack> packs, double shipping, Spread by);

}  // namespace barwright::oils
