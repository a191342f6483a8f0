#pragma once

#include <optional>
#include <string>
#include <vector>

#include "oils/books/list_table.hpp"
#include "oils/books/price_list.hpp"
#include "oils/books/shelf.hpp"
#include "oils/books/shelf_writer.hpp"

namespace barwright::oils {

/// One row of a delivery note or a stock sheet: a lot that came in.
struct ListedLot {
  NewLot lot;  ///< `paid` is filled by paid_in_full()
  double grams = 0;
  std::optional<double> paid;  ///< for all of it, the list's tax in it, currency units
  core::Place place;
};

struct StockList {
  std::string file;
  std::string currency;         ///< empty: none stated
  std::vector<ListedLot> lots;  ///< in file order
  std::vector<SkippedRow> skipped;
};

/// Returns the lots of a CSV file, to be taken onto a shelf, whose `lists:` say how it is read. A
/// wrong row (also one whose lot is on the shelf already) is an error at its line, or, when
/// `skip_wrong`, left out and named. Errors: InputError, also for a currency not the shelf's.
StockList read_stock_list(const std::string& path, const Shelf& shelf, bool skip_wrong);
StockList read_stock_list_text(const std::string& text, const std::string& name,
                               const std::string& columns_text, const Shelf& shelf,
                               bool skip_wrong);

/// Spreads a sum (shipping, or tax that is a sum on the bill) over the lots, not rounded
/// yet. Errors: InputError at a lot without a price.
void add_charge(StockList& list, double sum, Spread by);

/// Rounds what was paid to whole cents that add up to the bill, and returns the lots as a shelf
/// takes them, `paid` written out.
std::vector<NewLot> paid_in_full(StockList& list);

}  // namespace barwright::oils
