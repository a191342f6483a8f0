#include "oils/books/stock_list.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <map>

#include "core/trade/money.hpp"
#include "core/units/date.hpp"
#include "core/units/faults.hpp"

namespace barwright::oils {
namespace {

int count_of(const Cell& cell) {
  if (cell.text.empty()) return 1;
  int count = 0;
  const char* end = cell.text.data() + cell.text.size();
  const auto read = std::from_chars(cell.text.data(), end, count);
  if (read.ec != std::errc() || read.ptr != end || count < 1 || count > 100000) {
    throw WrongRow{cell, "'" + cell.text + "' is no number of packs",
                   "Write a whole number; take a row out of which nothing came."};
  }
  return count;
}

// "2028-06-30", or as much of Europe writes it, "30.06.2028".
std::string day_of(const Cell& cell) {
  std::string text = cell.text;
  if (text.empty()) return text;
  if (text.size() == 10 && text[2] == '.' && text[5] == '.') {
    text = text.substr(6) + "-" + text.substr(3, 2) + "-" + text.substr(0, 2);
  }
  const auto day = is_iso_date(text) ? core::find_day(text) : std::nullopt;
  if (!day || !core::is_plausible(*day)) {
    throw WrongRow{cell, "'" + cell.text + "' is no day",
                   "Write year-month-day, such as 2028-06-30."};
  }
  return text;
}

// Where each lot stands already, by oil and number: a line, and of which other file.
using Seen = std::map<std::pair<std::string, std::string>, std::pair<int, std::string>>;

/// Returns what a row is of where it is no oil: an alkali, or what the shelf keeps by this name. No
/// density is known of it. Nothing for an oil, or what is not known.
std::optional<std::pair<Oil, StockKind>> supply_of(const ListTable& list, std::size_t row,
                                                   const Shelf& shelf) {
  const std::string name = list.name_of(row);
  if (shelf.library.find(name) != nullptr) return std::nullopt;
  Oil out;
  out.solid_at_25c = true;
  if (const auto alkali = find_alkali(name)) {
    if (*alkali == core::Alkali::potassium_hydroxide)
      throw WrongRow{list.cell(row, list.oil), "potassium hydroxide comes in with its purity",
                     "Take the row out, and receive it by itself: barwright shelf receive "
                     "\"potassium hydroxide\" \"1 kg\" --purity \"90 %\"."};
    out.name = core::name(*alkali);
    return std::pair(out, StockKind::lye);
  }
  const auto known = shelf.name_of(name);
  const auto kind = known ? shelf.kind_of(*known) : std::nullopt;
  if (!kind || *kind == StockKind::packaging) return std::nullopt;
  out.name = *known;
  return std::pair(out, *kind);
}

ListedLot lot_of(const ListTable& list, std::size_t row, Seen& seen, const Shelf& shelf) {
  ListedLot out;
  const auto supply = supply_of(list, row, shelf);
  const Oil& oil = supply ? supply->first : list.oil_of(row, shelf.library);
  if (supply) out.lot.kind = supply->second;
  out.place = list.cell(row, list.oil).place;
  out.lot.oil = oil.name;
  const PackSize pack = list.pack_of(row, oil);
  const int count = count_of(list.cell(row, list.count));
  out.grams = count * pack.grams;
  out.lot.have = fmt::format("{:.10g} {}", count * pack.count * pack.each.value, pack.each.unit);
  if (const auto price = list.price_of(row, pack.grams)) out.paid = count * *price;
  out.lot.lot = list.cell(row, list.lot).text;
  out.lot.best_before = day_of(list.cell(row, list.best_before));
  out.lot.supplier = list.cell(row, list.supplier).text;
  if (out.lot.supplier.empty()) out.lot.supplier = list.known_as;
  out.lot.note = list.cell(row, list.note).text;
  const auto line = list.cell(row, list.oil).place.line;
  const auto [other, fresh] =
      seen.emplace(std::pair(oil.name, out.lot.lot), std::pair(line, std::string()));
  if (!fresh) {
    throw WrongRow{
        list.cell(row, list.oil),
        fmt::format("{} stands already on line {}{}", lot_words(oil.name, out.lot.lot),
                    other->second.first, other->second.second),
        out.lot.lot.empty()
            ? "Give it the supplier's lot number, in a column 'lot': lots must be told apart."
            : fmt::format("A second pail of it: write {}/2.", out.lot.lot)};
  }
  return out;
}

StockList lots_of(const ListTable& list, const std::string& name, const Shelf& shelf,
                  bool skip_wrong) {
  StockList out;
  out.file = name;
  out.currency = list.columns.currency;
  const bool priced = list.price.has_value() || list.price_per_kg.has_value();
  if (priced && !out.currency.empty() && !shelf.currency.empty() &&
      out.currency != shelf.currency) {
    list.table.fail(list.table.rows[0][0].place,
                    fmt::format("this list is in {}, the shelf {} in {}", out.currency, shelf.file,
                                shelf.currency),
                    "Turn its prices: no rate of exchange is known here.");
  }
  if (priced && shelf.currency.empty()) {
    list.table.fail(list.table.rows[0][0].place, "the shelf states no currency for these prices",
                    "Write 'currency: EUR', or your own, at the top of " + shelf.file + ".");
  }
  Seen seen;
  for (const auto& lot : shelf.lots)
    seen.emplace(std::pair(lot.oil, lot.lot), std::pair(lot.place.line, " of " + shelf.file));
  core::Faults faults;  // of all rows, told together
  for (std::size_t r = 0; r < list.rows(); ++r) {
    try {
      out.lots.push_back(lot_of(list, r, seen, shelf));
    } catch (const WrongRow& wrong) {
      if (!skip_wrong) faults.of([&] { list.refuse(wrong); });
      out.skipped.push_back({wrong.cell.place, wrong.message});
    }
  }
  faults.done();
  return out;
}

}  // namespace

StockList read_stock_list(const std::string& path, const Shelf& shelf, bool skip_wrong) {
  return lots_of(open_list_file(path, shelf.lists), path, shelf, skip_wrong);
}

StockList read_stock_list_text(const std::string& text, const std::string& name,
                               const std::string& columns_text, const Shelf& shelf,
                               bool skip_wrong) {
  return lots_of(open_list(text, name, columns_text, shelf.lists), name, shelf, skip_wrong);
}

void add_charge(StockList& list, double sum, Spread by) {
  std::vector<PricedPack> packs;
  for (const auto& one : list.lots) {
    if (!one.paid) {
      throw core::InputError(one.place, "this row has no price, so nothing can be spread over it",
                             "Fill in what it cost, or leave shipping and tax out.");
    }
    PricedPack pack;
    pack.grams = one.grams;
    pack.price = *one.paid;
    packs.push_back(std::move(pack));
  }
  if (packs.empty()) return;
  const auto landed = landed_prices(packs, sum, by);
  for (std::size_t i = 0; i < landed.size(); ++i) list.lots[i].paid = landed[i];
}

std::vector<NewLot> paid_in_full(StockList& list) {
  // Together to the cent: what is written adds up to the bill.
  std::vector<double> sums;
  for (const auto& one : list.lots) sums.push_back(one.paid.value_or(0));
  const auto cents = sums.empty() ? std::vector<core::Cents>{} : core::rounded_together(sums);
  std::vector<NewLot> out;
  for (std::size_t i = 0; i < list.lots.size(); ++i) {
    out.push_back(list.lots[i].lot);
    if (list.lots[i].paid) {
      list.lots[i].paid = core::units(cents[i]);
      out.back().paid = core::money_text(cents[i]) + " for " + out.back().have;
    }
  }
  return out;
}

}  // namespace barwright::oils
