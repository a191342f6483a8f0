#include "solver/app/books/command_price.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>

#include "core/trade/cost.hpp"
#include "core/units/format.hpp"
#include "oils/books/shelf_reader.hpp"
#include "solver/app/books/command_shelf_books.hpp"
#include "solver/app/books/json_shelf.hpp"
#include "solver/app/json.hpp"
#include "solver/app/library.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/app/print/workshop_words.hpp"
#include "solver/books/batch_price.hpp"

namespace barwright::app {
namespace {

struct PriceOptions : BooksOptions {
  std::string file, costs, batch;
  std::string margin, price, wholesale_margin, wholesale_price;
  int bars = 0;
};

struct Priced {
  books::BatchPrice batch;
  std::string currency;
  std::vector<books::WayToSell> ways;
  double sales_tax = 0;
};

/// What is asked of a bar's price: typed behind the command, else as the cost file has it.
books::SellingWish asked(const char* name, const std::string& margin, const std::string& price,
                         const std::optional<books::SellingWish>& wish) {
  if (!margin.empty() && !price.empty())
    throw UsageError{fmt::format("{}: give a margin or a price, not both.", name)};
  if (!margin.empty()) return {typed_fraction(margin, "the margin"), {}};
  if (!price.empty()) return {{}, typed_money(price, "the price")};
  return wish.value_or(books::SellingWish{});
}

books::Costs costs_in(const std::string& shelf_currency, const std::string& path,
                      const oils::Library& library) {
  books::Costs costs;
  costs.currency = "";
  if (!path.empty()) costs = books::read_costs(path, library);
  if (costs.currency.empty()) costs.currency = shelf_currency;
  if (!shelf_currency.empty() && costs.currency != shelf_currency)
    throw core::InputError({path, 0, 0},
                           fmt::format("the costs are in {}, the shelf's prices in {}",
                                       costs.currency, shelf_currency),
                           "Turn one of them: no rate of exchange is known here.");
  return costs;
}

void need_bars(int bars) {
  if (bars < 1) throw UsageError{"The file does not say how many bars: give '--bars'."};
}

/// The batch priced; `costs` as they were read for it.
books::BatchPrice price_batch(const PriceOptions& options, const oils::Library& base,
                              books::Costs& costs) {
  if (!options.batch.empty()) {
    std::string diagnostics;
    const oils::Books books = open_books(options, oils::Books::Mode::look, diagnostics);
    costs = costs_in(books.shelf().currency, options.costs, books.shelf().library);
    const auto& batch = oils::need_batch(books.ledger(), options.batch, books.journal_file());
    need_bars(batch.bars);
    return books::price_of_batch(batch, costs, books);
  }
  std::optional<oils::Shelf> shelf;
  const auto named = books::shelf_named_in(options.file);
  if (!options.shelf.empty() || named)
    shelf = oils::read_shelf(options.shelf.empty() ? *named : options.shelf, base);
  const oils::Library& library = shelf ? shelf->library : base;
  costs = costs_in(shelf ? shelf->currency : "", options.costs, library);
  const oils::Shelf* const held = shelf ? &*shelf : nullptr;
  const books::MakePlan plan = books::make_plan(options.file, library, held, options.bars);
  need_bars(plan.bars);
  return books::price_of_plan(plan, plan.bars, costs, held);
}

Priced price(const PriceOptions& options) {
  if (options.file.empty() == options.batch.empty())
    throw UsageError{"Name a recipe or batch file, or a recorded batch with '--batch'."};
  books::Costs costs;
  Priced out;
  out.batch = price_batch(options, load_library(options.common), costs);
  out.currency = costs.currency;
  out.sales_tax = costs.sales_tax;
  const auto add = [&](const char* name, const books::SellingWish& wish, double tax) {
    if (auto way = books::way_to_sell(name, wish, out.batch.cost.per_bar, tax))
      out.ways.push_back(std::move(*way));
  };
  add("wholesale",
      asked("wholesale", options.wholesale_margin, options.wholesale_price, costs.wholesale), 0);
  add("retail", asked("retail", options.margin, options.price, costs.retail), costs.sales_tax);
  return out;
}

std::string text(const Priced& priced) {
  Screen screen(colour_wanted());
  const std::string& unit = priced.currency;
  screen.title(priced.batch.name, fmt::format("{}, {} to sell", bars_words(priced.batch.cost.bars),
                                              priced.batch.cost.sellable));
  screen.heading("THIS BATCH COSTS", unit);
  std::vector<std::vector<std::string>> rows;
  for (const auto& line : priced.batch.cost.lines)
    rows.push_back({core::word(line.kind), line.what,
                    line.known ? core::money_text(line.cents) : "?", line.how});
  rows.push_back({"", "in all", core::money_text(priced.batch.cost.total), ""});
  screen.table("llrl", rows);
  screen.heading("A BAR COSTS", money(priced.batch.cost.per_bar, unit));
  if (priced.batch.cost.sellable < priced.batch.cost.bars)
    screen.sentence(fmt::format("{} of it carry the {} that cannot be sold.",
                                money(priced.batch.cost.lost_per_bar, unit),
                                bars_words(priced.batch.cost.bars - priced.batch.cost.sellable)));
  if (!priced.ways.empty()) {
    screen.heading("PRICE OF A BAR");
    rows.clear();
    for (const auto& way : priced.ways)
      rows.push_back({way.name, money(core::units(way.price.shown), unit),
                      fmt::format("margin {}", core::percent_text(way.price.margin)),
                      fmt::format("{} a bar left", money(way.price.earned, unit))});
    screen.table("lrrr", rows);
    if (priced.sales_tax > 0)
      screen.sentence(
          fmt::format("Retail prices hold {} sales tax; margins are of the price without "
                      "it. Wholesale prices are without it.",
                      core::percent_text(priced.sales_tax)));
    for (const auto& way : priced.ways) {
      if (way.price.earned < 0)
        screen.sentence(fmt::format("The {} price is below what a bar costs.", way.name), "!");
    }
  }
  for (const auto& remark : priced.batch.remarks) screen.sentence(remark, "!");
  return screen.text();
}

std::string json(const Priced& priced) {
  auto object = json_head("price", priced.batch.cost.complete ? "reckoned" : "incomplete");
  object["name"] = priced.batch.name;
  object["currency"] = priced.currency;
  object["bars"] = priced.batch.cost.bars;
  object["sellable"] = priced.batch.cost.sellable;
  object["lines"] = Json::array();
  for (const auto& line : priced.batch.cost.lines)
    object["lines"].push_back({{"kind", core::word(line.kind)},
                               {"what", line.what},
                               {"cost", core::units(line.cents)},
                               {"known", line.known},
                               {"how", line.how}});
  object["cost"] = {{"per_batch", core::units(priced.batch.cost.total)},
                    {"per_bar", priced.batch.cost.per_bar}};
  object["prices"] = Json::array();
  for (const auto& way : priced.ways)
    object["prices"].push_back({{"way", way.name},
                                {"price", core::units(way.price.shown)},
                                {"net", way.price.net},
                                {"margin_percent", 100 * way.price.margin},
                                {"earned", way.price.earned}});
  object["remarks"] = priced.batch.remarks;
  return object.dump(2) + "\n";
}

}  // namespace

void add_price(Command app, Action& action) {
  auto options = std::make_shared<PriceOptions>();
  Command command = app.add_command(
      "price", "What a batch and a bar cost; the price for a margin, or the margin of a price");
  command.value("file", options->file, "The recipe or batch");
  command.value("--batch", options->batch, "A recorded batch, at what its lots cost");
  command.value("--costs", options->costs,
                "The cost file: lye, packaging, labour, overhead, margins");
  command.value("--margin", options->margin, "Margin wished at retail: \"55 %\"");
  command.value("--price", options->price, "Retail price to judge: 6.50");
  command.value("--wholesale-margin", options->wholesale_margin, "The same at wholesale");
  command.value("--wholesale-price", options->wholesale_price, "The same at wholesale");
  command.value("--bars", options->bars, "Bars as cut").above_zero();
  add_books(command, *options);
  command.footer(
      "Worked example: what must the bar on sale fetch?\n"
      "  barwright price my-workshop/yard-bar.yaml --bars 36 --costs yard-costs.yaml --margin \"55 "
      "%\"\n"
      "where yard-costs.yaml holds\n"
      "  costs: Weighbridge Yard\n"
      "  currency: EUR\n"
      "  prices: {sodium hydroxide: 4.20 per kg}\n"
      "  packaging: 0.22\n"
      "  labour: {per-batch: 150 min, per-bar: 2 min, per-hour: 18}\n"
      "  overhead: {per-batch: 12}\n"
      "  unsellable: 2 bars");
  command.on_chosen([options, &action] {
    action = [options] {
      const core::ShownIn shown(units_of(options->common, options->file));
      const Priced priced = price(*options);
      Outcome out{0, options->common.json ? json(priced) : text(priced), {}};
      if (options->file.empty()) return out;
      return with_workshop(std::move(out), options->common, options->file);
    };
  });
}

}  // namespace barwright::app
