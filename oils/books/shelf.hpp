#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/units/error.hpp"
#include "oils/books/list_columns.hpp"
#include "oils/books/stock_kind.hpp"
#include "oils/records/certificate.hpp"
#include "oils/records/library.hpp"
#include "oils/records/oil.hpp"

namespace barwright::oils {

/// One lot on the shelf: a pail, a bottle, a box, what is left of it.
struct Lot {
  std::string oil;                     ///< name in the shelf's library, or of what else it is
  double grams = 0;                    ///< what is there; of packaging the pieces
  double keep_grams = 0;               ///< of it, what must not be used
  std::optional<double> price_per_kg;  ///< in the shelf's currency; of packaging for 1000 pieces
  std::string supplier;
  std::string lot;          ///< the supplier's lot number
  std::string best_before;  ///< yyyy-mm-dd, or empty
  std::string note;
  std::optional<Certificate> certificate;
  std::string confirmed;  ///< what to say of it beside a recipe: a doubted figure, confirmed
  core::Place place;
  StockKind kind = StockKind::oil;
  std::optional<core::Strength> strength{};  ///< lye: as its label or certificate has it
};

/// All lots of one oil together, as a search sees them.
struct Holding {
  std::string oil;
  double grams = 0;                    ///< of all lots
  double keep_grams = 0;               ///< of them, what must not be used
  std::optional<double> price_per_kg;  ///< mean by mass over the lots that have a price
  double unpriced_grams = 0;           ///< in lots without one
  std::string best_before;             ///< the earliest, or empty
  std::vector<std::size_t> lots;       ///< indices into Shelf::lots, best-before first
  /// The oil with what certificates say of the lots that may be used: typical figures by mass over
  /// them, ranges wide enough for each, marks the weakest of them. The library's where none may.
  Oil figures;
  Oil published;  ///< the library's record

  /// One lot that may be used.
  struct Usable {
    double grams = 0;
    core::Span saponification_value{};  ///< as judged for the lye, mg KOH/g
  };
  std::vector<Usable> usable;

  double usable_grams() const { return grams > keep_grams ? grams - keep_grams : 0; }
  /// Returns the oil for a recipe that takes so many grams, whichever lots they come from: its
  /// saponification range runs from the least to the most those lots can give together, and what
  /// the lots do not hold (`elsewhere` g of them taken by other parts) has the published range.
  Oil figures_for(double wanted, double elsewhere = 0) const;
};

/// What the maker has.
struct Shelf {
  std::string file;
  std::string name;
  std::string currency;  ///< a label such as "EUR"; empty when nothing is priced
  std::string counted;   ///< yyyy-mm-dd of the last count, or empty
  std::string note;
  std::vector<Lot> lots;           ///< as in the file
  Library library;                 ///< the library with the maker's own records of this shelf
  std::vector<ListMapping> lists;  ///< how the CSV lists of its suppliers are to be read

  /// Returns one holding per oil, sorted by name.
  std::vector<Holding> holdings() const;
  /// Returns the holding of an oil (any of its names); nothing when none is there.
  std::optional<Holding> holding(std::string_view oil) const;
  /// Returns the figures of an oil the library knows, for a recipe that takes so many grams: see
  /// Holding::figures_for; the library's where there is none on the shelf.
  Oil figures_for(std::string_view oil, double grams, double elsewhere = 0) const;
  /// Returns the name under which a thing stands on this shelf, whatever its kind, or an oil in its
  /// library: the library's for an oil, "sodium hydroxide" for an alkali, else as the shelf writes
  /// it. Nothing for what is neither.
  std::optional<std::string> name_of(std::string_view thing) const;
  /// Returns the kind of what stands here under this name (as name_of gives it); nothing where no
  /// lot of it does, used up ones counted in.
  std::optional<StockKind> kind_of(std::string_view what) const;
  /// Returns a lot of another alkali than this one, which it must not be taken for; null where the
  /// shelf keeps none.
  const Lot* other_alkali(std::string_view than) const;
  /// Returns what of it may be used, g (packaging: pieces), all lots together.
  double usable_grams(std::string_view what) const;
  /// Returns the indices of lots whose best-before lies before `date` (yyyy-mm-dd).
  std::vector<std::size_t> past(const std::string& date) const;
};

/// Returns an oil's density, g/mL, at a temperature: its published figure moved by 0.00068 g/mL per
/// C, the usual thermal expansion of fat oils (recalled). Nothing when none is published.
std::optional<double> density_at(const Oil& oil, double celsius);

/// Returns whether a text is a day of the calendar as yyyy-mm-dd.
bool is_iso_date(const std::string& text);

}  // namespace barwright::oils
