#include "solver/app/books/command_shelf_receive.hpp"

#include <fmt/format.h>

#include "core/trade/ingredient.hpp"
#include "core/units/format.hpp"
#include "oils/books/stock_list.hpp"
#include "solver/app/books/json_shelf.hpp"
#include "solver/app/print/screen.hpp"

namespace barwright::app {
namespace {

using Mode = oils::Books::Mode;

oils::Spread spread_of(const ShelfOptions& options, oils::Spread otherwise) {
  if (options.spread.empty()) return otherwise;
  return options.spread == "value" ? oils::Spread::value : oils::Spread::weight;
}

// A whole delivery note or stock sheet at once: all of it is recorded, or nothing.
Outcome receive_list(const ShelfOptions& options) {
  if (!options.oil.empty() || !options.amount.empty() || !options.lot.lot.empty() ||
      !options.lot.paid.empty() || !options.lot.best_before.empty() ||
      !options.lot.certificate.empty()) {
    throw UsageError{"'--from' takes oils, amounts, prices and lots from the list: name none."};
  }
  if (!options.spread.empty() && options.shipping.empty() && options.tax.empty())
    throw UsageError{"--spread says how --shipping or --tax is spread: give one of them."};
  const core::Day day = today(options);
  std::string diagnostics;
  auto books = open_books(options, Mode::write, diagnostics);
  auto list = oils::read_stock_list(options.from, books.shelf(), options.skip_wrong_rows);
  for (const auto& row : list.skipped) {
    diagnostics += fmt::format("left out: {}:{}: {}\n", row.place.file, row.place.line, row.why);
  }
  const double shipping =
      options.shipping.empty() ? 0 : core::units(typed_money(options.shipping, "--shipping"));
  const double tax = options.tax.empty() ? 0 : core::units(typed_money(options.tax, "--tax"));
  if (tax > 0) oils::add_charge(list, tax, spread_of(options, oils::Spread::value));
  if (shipping > 0) oils::add_charge(list, shipping, spread_of(options, oils::Spread::weight));
  std::vector<oils::Arrival> arrivals;
  for (auto& lot : oils::paid_in_full(list)) {
    if (!options.lot.supplier.empty()) lot.supplier = options.lot.supplier;
    if (!options.lot.note.empty()) lot.note = options.lot.note;
    arrivals.push_back({std::move(lot), day});
  }
  if (arrivals.empty()) throw UsageError{"No row of " + options.from + " can be taken."};
  books.receive(arrivals);
  std::vector<std::vector<std::string>> rows = {{"", "weight", "lot", "best before", "paid"}};
  auto lots = Json::array();
  double paid = 0;
  bool traced = true;
  for (std::size_t i = 0; i < arrivals.size(); ++i) {
    const auto& lot = arrivals[i].lot;
    const auto& sum = list.lots[i].paid;
    paid += sum.value_or(0);
    traced = traced && !lot.lot.empty();
    const std::string& currency = books.shelf().currency;
    rows.push_back({lot.oil, mass_words(list.lots[i].grams), lot.lot.empty() ? "-" : lot.lot,
                    lot.best_before.empty() ? "-" : lot.best_before,
                    sum ? money(*sum, currency) : "-"});
    Json one = {{"lot", lot.lot},
                {"grams", list.lots[i].grams},
                {"paid", sum ? Json(*sum) : nullptr},
                {"line", list.lots[i].place.line}};
    put_what(one, lot.kind, lot.oil);
    lots.push_back(one);
  }
  if (paid > 0) rows.push_back({"in all", "", "", "", money(paid, books.shelf().currency)});
  Screen screen(colour_wanted());
  screen.title(fmt::format("Received: {} lot{} of {}", arrivals.size(),
                           arrivals.size() == 1 ? "" : "s", options.from));
  screen.table("lrllr", rows);
  if (!traced) {
    diagnostics +=
        "A lot without a number cannot be traced: give the list a column 'lot' next time.\n";
  }
  return recorded(options, "receive", screen.text(), diagnostics, {{"lots", lots}, {"paid", paid}});
}

Json received_json(const oils::Lot& in) {
  Json out = {{"lot", in.lot}};
  put_what(out, in.kind, in.oil);
  put_amount(out, in.kind, in.grams);
  return out;
}

/// Sets what it is that comes in, and its name as the books write it.
void name_lot(oils::NewLot& lot, const ShelfOptions& options, const oils::Shelf& shelf) {
  const std::string& name = options.oil;
  lot.oil = shelf.name_of(name).value_or(name);
  const auto alkali = oils::find_alkali(name);
  if (!options.as.empty()) {
    lot.kind = *oils::find_stock_kind(options.as);
  } else if (shelf.library.find(name) != nullptr) {
    lot.kind = oils::StockKind::oil;
  } else if (alkali) {
    lot.kind = oils::StockKind::lye;
  } else if (oils::is_unclear_alkali(name)) {
    throw UsageError{fmt::format(
        "'{}' does not say which alkali: write \"sodium hydroxide\" or \"potassium hydroxide\", "
        "as on the jar. They are never taken for each other.",
        name)};
  } else if (const auto kind = shelf.kind_of(lot.oil)) {
    lot.kind = *kind;
  } else if (const auto known = core::find_ingredient_name(name)) {
    lot.kind = known->role == core::Role::colourant   ? oils::StockKind::colour
               : known->role == core::Role::fragrance ? oils::StockKind::scent
                                                      : oils::StockKind::additive;
  } else {
    throw UsageError{shelf.library.remedy_for(name) +
                     " If it is no oil, say what it is: --as scent, colour, additive or "
                     "packaging."};
  }
  if (lot.kind == oils::StockKind::lye && alkali) lot.oil = oils::own_name(name);
  if (lot.kind != oils::StockKind::lye && !lot.purity.empty())
    throw UsageError{"--purity is an alkali's."};
  if (lot.kind != oils::StockKind::oil && !lot.certificate.empty())
    throw UsageError{"--certificate holds an oil's figures. Of an alkali type in its --purity."};
}

/// Returns what the maker should know of an alkali that came in.
std::string about_lye(const oils::Lot& in, const oils::Shelf& shelf) {
  std::string out;
  if (!in.strength)
    out +=
        "Its purity is not entered ('--purity \"99 %\"'): it is reckoned as each recipe has it.\n";
  if (const oils::Lot* other = shelf.other_alkali(in.oil))
    out += fmt::format(
        "The shelf holds {} too: keep the two apart and marked. One in the place of the other "
        "burns, or makes no soap.\n",
        other->oil);
  return out;
}

}  // namespace

Outcome recorded(const ShelfOptions& options, const std::string& command, const std::string& text,
                 const std::string& diagnostics, Json more) {
  if (!options.common.json) return {0, text, diagnostics};
  auto object = json_head("shelf " + command, "recorded");
  object.update(more);
  return {0, object.dump(2) + "\n", diagnostics};
}

Outcome receive(const ShelfOptions& options) {
  if (!options.from.empty()) return receive_list(options);
  if (!options.shipping.empty() || !options.tax.empty() || !options.spread.empty() ||
      options.skip_wrong_rows)
    throw UsageError{
        "--shipping, --tax, --spread and --skip-wrong-rows go with a whole list: --from."};
  if (options.oil.empty() || options.amount.empty()) {
    throw UsageError{
        "Name what came in and how much: barwright shelf receive olive \"5 kg\"; or a whole list: "
        "--from delivery.csv."};
  }
  const core::Day day = today(options);
  if (!options.lot.best_before.empty()) typed_day(options.lot.best_before, "--best-before");
  std::string diagnostics;
  auto books = open_books(options, Mode::write, diagnostics);
  oils::NewLot lot = options.lot;
  name_lot(lot, options, books.shelf());
  lot.have = options.amount;
  books.receive({lot, day});
  const oils::Lot& in = books.shelf().lots.back();
  std::string text =
      fmt::format("Received: {} of {}{}{}.\n", amount_words(in.kind, in.grams), in.oil,
                  in.strength ? ", " + core::percent_text(in.strength->stated) : "",
                  in.lot.empty() ? "" : ", lot " + in.lot);
  if (in.kind == oils::StockKind::lye) diagnostics += about_lye(in, books.shelf());
  if (in.certificate) {
    const oils::Oil& oil = *books.shelf().library.find(in.oil);
    const auto findings = oils::question(*in.certificate, oil.form, &oil);
    for (const auto& finding : findings) {
      if (finding.weight != oils::Finding::Weight::note)
        diagnostics += fmt::format("Certificate: {} {}\n", finding.text, finding.remedy);
    }
  }
  if (in.lot.empty())
    diagnostics +=
        "No lot number: this lot cannot be traced. Type the supplier's with '--lot' next time.\n";
  return recorded(options, "receive", text, diagnostics, received_json(in));
}

}  // namespace barwright::app
