#pragma once

#include <string>
#include <vector>

#include "core/units/date.hpp"
#include "oils/books/stock.hpp"
#include "solver/app/options/command_line.hpp"
#include "solver/app/program.hpp"

namespace barwright::app {

/// Options of every command that opens the books.
struct BooksOptions {
  CommonOptions common;
  std::string shelf;  ///< --shelf FILE; empty: found
  std::string date;   ///< --date yyyy-mm-dd; empty: the system's day
};

/// Adds --shelf, --date, --json and --library.
void add_books(Command command, BooksOptions& options);

/// Returns the day the command works on. Errors: InputError for a text that is no day, or one
/// outside the years the books can speak of.
core::Day today(const BooksOptions& options);
/// Returns a day typed behind an option. Errors: as above.
core::Day typed_day(const std::string& text, const std::string& option);

/// Returns the shelf file: --shelf, else the one the recipe names, else the only file here whose
/// name ends in "shelf.yaml". Errors: UsageError when none or several are there.
std::string shelf_path(const BooksOptions& options, const std::string& named_by_recipe = {});

/// Returns the books, opened. `diagnostics` gains what the maker should know of the opening.
oils::Books open_books(const BooksOptions& options, oils::Books::Mode mode,
                       std::string& diagnostics, const std::string& named_by_recipe = {});

/// Splits "olive=1210 g" at its equals sign. Errors: UsageError that names the option.
std::pair<std::string, std::string> split_pair(const std::string& text, const std::string& option);
/// Returns grams of a text such as "1210 g". Errors: UsageError that names the option.
double typed_grams(const std::string& text, const std::string& option);
/// Returns cents of "6.50" or "6.50 EUR". Errors: UsageError.
core::Cents typed_money(const std::string& text, const std::string& option);
/// Returns a fraction of "55 %". Errors: UsageError.
double typed_fraction(const std::string& text, const std::string& option);

/// Returns how the shelf calls what is named: an oil, or whatever else stands there. Errors:
/// UsageError with the nearest names.
std::string typed_thing(const oils::Shelf& shelf, const std::string& name);
/// Returns the grams of a text such as "1210 g", of packaging the pieces of "200". Errors:
/// UsageError that names the option.
double typed_amount(const oils::Shelf& shelf, const std::string& thing, const std::string& text,
                    const std::string& option);

/// Returns "2.6 kg" or "640 g".
std::string mass_words(double grams);
/// Returns the same, of packaging "164 pieces".
std::string amount_words(oils::StockKind kind, double amount);
/// Returns the same for what stands on a shelf under this name.
std::string amount_words(const oils::Shelf& shelf, const std::string& name, double amount);
/// Returns "Sat 2027-02-13".
std::string day_words(const core::Day& day);
/// Returns "in 3 days", "tomorrow", "today", "2 days ago".
std::string days_words(int days);
/// Returns "1 bar" or "12 bars".
std::string bars_words(int bars);

}  // namespace barwright::app
