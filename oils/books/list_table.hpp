#pragma once

#include <optional>
#include <span>
#include <string>

#include "core/units/quantity.hpp"
#include "oils/books/list_columns.hpp"
#include "oils/records/library.hpp"
#include "oils/text/journal_csv.hpp"

namespace barwright::oils {

/// A row of a list that cannot be taken; thrown at a cell, caught by the reader of the list.
struct WrongRow {
  Cell cell;
  std::string message;
  core::Remedy remedy;
};

/// A row that was left out, and why.
struct SkippedRow {
  core::Place place;
  std::string why;
};

/// How much a cell says: "2 x 5 L" is 2 of 5 L.
struct PackSize {
  double count = 1;
  core::Quantity each;
  double grams = 0;  ///< all of it; volumes by the oil's density at room warmth
};

/// A table of oils with its columns found.
struct ListTable {
  Table table;
  ListColumns columns;   ///< what the table, the file beside it and the shelf say together
  std::string known_as;  ///< the shelf's name for such tables; empty where it has none
  std::size_t oil = 0, pack = 0;
  std::optional<std::size_t> price, price_per_kg, count, lot, best_before, supplier, note;

  std::size_t rows() const { return table.rows.empty() ? 0 : table.rows.size() - 1; }
  /// Returns a cell of a row (from 0, the header left out), trimmed; empty where the row is short.
  Cell cell(std::size_t row, std::optional<std::size_t> column) const;
  /// Each returns what a row says. Errors: WrongRow.
  std::string name_of(std::size_t row) const;  ///< ours, where the list's own is mapped to it
  const Oil& oil_of(std::size_t row, const Library& library) const;
  PackSize pack_of(std::size_t row, const Oil& kind) const;
  /// Price of the row's pack, tax in it; nothing where no column or cell says.
  std::optional<double> price_of(std::size_t row, double pack_grams) const;
  /// Ends the reading at a row: throws InputError at its line, with the way to leave it out.
  [[noreturn]] void refuse(const WrongRow& wrong) const;
};

/// Returns a list with its columns found. `beside` holds the lines of a file beside it, may be
/// empty; `mappings` is what the shelf knows of such tables; nearer words win: lines above the
/// table, then `beside`, then the shelf. Errors: InputError.
ListTable open_list(const std::string& text, const std::string& name, const std::string& beside,
                    std::span<const ListMapping> mappings);
/// The same from a file, and "list.columns" beside "list.csv".
ListTable open_list_file(const std::string& path, std::span<const ListMapping> mappings);

}  // namespace barwright::oils
