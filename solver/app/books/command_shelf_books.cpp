#include "solver/app/books/command_shelf_books.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "core/units/format.hpp"
#include "core/units/number_text.hpp"
#include "core/units/quantity.hpp"
#include "core/units/weight_text.hpp"
#include "solver/app/common_options.hpp"
#include "solver/app/library.hpp"
#include "targets/files/workshop.hpp"

namespace barwright::app {

void add_books(Command command, BooksOptions& options) {
  command.value("--shelf", options.shelf,
                "The shelf file; without it the only *shelf.yaml in this folder");
  command.value("--date", options.date, "The day it happened, yyyy-mm-dd; without it today");
  add_common(command, options.common);
  add_units(command, options.common);
}

core::Day typed_day(const std::string& text, const std::string& option) {
  const auto found = core::find_day(text);
  if (!found)
    throw core::InputError({option, 0, 0}, fmt::format("'{}' is not a day", text),
                           "Write year-month-day, such as 2027-03-31.");
  if (!core::is_plausible(*found))
    throw core::InputError(
        {option, 0, 0},
        fmt::format("{} lies outside the years {} to {}", text, core::kFirstYear, core::kLastYear),
        "Correct the year.");
  return *found;
}

core::Day today(const BooksOptions& options) {
  return options.date.empty() ? core::system_day() : typed_day(options.date, "--date");
}

std::string shelf_path(const BooksOptions& options, const std::string& named_by_recipe) {
  namespace fs = std::filesystem;
  if (!options.shelf.empty()) return options.shelf;
  if (!named_by_recipe.empty()) return named_by_recipe;
  if (const auto workshop = targets::workshop_in("."); workshop && workshop->shelf)
    return workshop->shelf->path;
  std::vector<std::string> found;
  std::error_code ignored;
  for (const auto& entry : fs::directory_iterator(".", ignored)) {
    const std::string name = entry.path().filename().string();
    if (name.ends_with("shelf.yaml") && !name.starts_with(".")) found.push_back(name);
  }
  std::sort(found.begin(), found.end());
  if (found.size() == 1) return found.front();
  if (found.empty())
    throw UsageError{"No shelf file stands in this folder: name it with '--shelf FILE'."};
  std::string names;
  for (const auto& name : found) names += "\n  " + name;
  throw UsageError{"Several shelf files stand here: name one with '--shelf FILE'." + names};
}

oils::Books open_books(const BooksOptions& options, oils::Books::Mode mode,
                       std::string& diagnostics, const std::string& named_by_recipe) {
  const oils::Library library = load_library(options.common);
  auto books = oils::Books::open(shelf_path(options, named_by_recipe), library, mode);
  if (books.recovered()) diagnostics += "An entry that had been cut off was completed first.\n";
  return books;
}

std::pair<std::string, std::string> split_pair(const std::string& text, const std::string& option) {
  const std::size_t at = text.find('=');
  if (at == std::string::npos || at == 0 || at + 1 == text.size())
    throw UsageError{fmt::format("{}: '{}' has no '=': write \"name=what\".", option, text)};
  const auto trim = [](std::string part) {
    part.erase(0, part.find_first_not_of(' '));
    part.erase(part.find_last_not_of(' ') + 1);
    return part;
  };
  return {trim(text.substr(0, at)), trim(text.substr(at + 1))};
}

double typed_grams(const std::string& text, const std::string& option) {
  try {
    const double grams = core::to_grams(core::parse_quantity(text));
    if (!(grams >= 0)) throw UsageError{fmt::format("{}: '{}' is below zero.", option, text)};
    return grams;
  } catch (const core::UnitError& error) {
    throw UsageError{fmt::format("{}: {}. {}", option, error.what(), error.remedy())};
  }
}

std::string typed_thing(const oils::Shelf& shelf, const std::string& name) {
  if (const auto found = shelf.name_of(name)) return *found;
  if (oils::find_alkali(name) || oils::is_unclear_alkali(name))
    throw UsageError{
        fmt::format("The shelf keeps no {}: receive it first, as 'barwright shelf receive \"sodium "
                    "hydroxide\" \"5 kg\"'.",
                    oils::find_alkali(name) ? oils::own_name(name) : "'" + name + "'")};
  throw UsageError{shelf.library.remedy_for(name)};
}

double typed_amount(const oils::Shelf& shelf, const std::string& thing, const std::string& text,
                    const std::string& option) {
  if (shelf.kind_of(thing) != oils::StockKind::packaging) return typed_grams(text, option);
  double pieces = 0;
  const auto read = core::read_number(text.data(), text.data() + text.size(), pieces);
  const std::string unit(read.ptr, text.data() + text.size());
  if (read.ec != std::errc() || (!unit.empty() && unit != " pieces") || !(pieces >= 0) ||
      pieces > 1e6 || pieces != std::floor(pieces))
    throw UsageError{
        fmt::format("{}: '{}' is no whole number of pieces: write 200.", option, text)};
  return pieces;
}

core::Cents typed_money(const std::string& text, const std::string& option) {
  double sum = 0;
  const std::string number = text.substr(0, text.find(' '));
  const auto read = core::read_number(number.data(), number.data() + number.size(), sum);
  if (read.ec != std::errc() || read.ptr != number.data() + number.size() || !(sum >= 0) ||
      !std::isfinite(sum))
    throw UsageError{fmt::format("{}: '{}' is no sum of money: write 6.50.", option, text)};
  return core::cents(sum);
}

double typed_fraction(const std::string& text, const std::string& option) {
  try {
    return core::to_fraction(core::parse_quantity(text));
  } catch (const core::UnitError& error) {
    throw UsageError{fmt::format("{}: {}. {}", option, error.what(), error.remedy())};
  }
}

std::string mass_words(double grams) { return core::mass_text(grams, core::shown_units()); }

std::string amount_words(oils::StockKind kind, double amount) {
  if (kind != oils::StockKind::packaging) return mass_words(amount);
  return core::fixed(amount, 0) + (amount == 1 ? " piece" : " pieces");
}

std::string amount_words(const oils::Shelf& shelf, const std::string& name, double amount) {
  return amount_words(shelf.kind_of(name).value_or(oils::StockKind::oil), amount);
}

std::string day_words(const core::Day& day) {
  return fmt::format("{} {}", core::weekday(day), core::text(day));
}

std::string days_words(int days) {
  if (days == 0) return "today";
  if (days == 1) return "tomorrow";
  if (days == -1) return "yesterday";
  return days > 0 ? fmt::format("in {} days", days) : fmt::format("{} days ago", -days);
}

std::string bars_words(int bars) { return fmt::format("{} {}", bars, bars == 1 ? "bar" : "bars"); }

}  // namespace barwright::app
