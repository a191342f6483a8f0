#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>

#include "core/trade/cost.hpp"
#include "core/units/format.hpp"
#include "solver/app/books/command_make_plan.hpp"
#include "solver/app/books/command_price_costs.hpp"
#include "solver/app/books/command_shelf_books.hpp"
#include "solver/app/books/json_shelf.hpp"
#include "solver/app/command.hpp"
#include "solver/app/json.hpp"
#include "solver/app/library.hpp"
#include "solver/app/print/screen.hpp"

namespace barwright::app {
namespace {

struct PriceOptions : BooksOptions {
  std::string file, costs, batch;
  std::string margin, price, wholesale_margin, wholesale_price;
  int bars = 0;
};

struct Priced {
  std::string name, currency;
  core::BatchCost cost;
  struct Way {
    std::string name;
    bool wished = false;  ///< by a margin, not a price
    core::SellingPrice price;
  };
  std::vector<Way> ways;
  std::vector<std::string> remarks;
  double sales_tax = 0;
};

/// Adds up costs of things by name and price, in the order met.
class Pot {
 public:
  Pot(const Costs& costs, const std::string& currency) : costs_(costs), currency_(currency) {}

  void add(core::CostKind kind, const std::string& what, const std::string& lot, double grams,
           std::optional<double> per_kg) {
    if (what == "water" && !per_kg && !costs_.per_kg.contains("water")) return;
    const auto listed = costs_.per_kg.find(what);
    if (!per_kg && listed != costs_.per_kg.end()) per_kg = listed->second;
    core::CostItem item;
    item.kind = kind;
    item.what = what;
    item.known = per_kg.has_value();
    item.amount = per_kg ? *per_kg * grams / 1000 : 0;
    item.how = fmt::format("{} at {}{}", core::grams_text(grams),
                           per_kg ? core::fixed(*per_kg, 2) + " per kg" : "no known price",
                           lot.empty() ? "" : ", lot " + lot);
    items.push_back(std::move(item));
  }

  std::vector<core::CostItem> items;

 private:
  const Costs& costs_;
  std::string currency_;
};

core::CostKind kind_of(PlanKind kind) {
  switch (kind) {
    case PlanKind::oil:
      return core::CostKind::oils;
    case PlanKind::alkali:
    case PlanKind::water:
      return core::CostKind::lye;
    case PlanKind::other:
      break;
  }
  return core::CostKind::additives;
}

/// Oils of a batch still to be made, from the lots they would come from.
void add_plan(Pot& pot, const MakePlan& plan, const oils::Shelf* shelf, Priced& out) {
  // Same things in several parts are one line.
  std::vector<PlanLine> lines;
  for (const auto& part : plan.parts) {
    for (const auto& line : part.lines) {
      const auto found = std::find_if(lines.begin(), lines.end(), [&](const PlanLine& each) {
        return each.what == line.what && each.kind == line.kind;
      });
      if (found == lines.end())
        lines.push_back(line);
      else
        found->grams += line.grams;
    }
  }
  for (const auto& line : lines) {
    if (line.kind != PlanKind::oil || shelf == nullptr) {
      pot.add(kind_of(line.kind), line.what, "", line.grams, {});
      continue;
    }
    const std::vector<oils::Wanted> wanted{{"", line.what, line.grams, line.grams}};
    try {
      for (const auto& draw : oils::draws(*shelf, wanted)) {
        const oils::Lot& lot = shelf->lots[draw.lot];
        pot.add(core::CostKind::oils, line.what, lot.lot, draw.grams, lot.price_per_kg);
      }
    } catch (const core::InputError&) {
      const auto holding = shelf->holding(line.what);
      pot.add(core::CostKind::oils, line.what, "", line.grams,
              holding ? holding->price_per_kg : std::nullopt);
      out.remarks.push_back(
          fmt::format("The shelf does not hold enough {}: it is reckoned at {}.", line.what,
                      holding ? "the mean price of its lots" : "the cost file's price"));
    }
  }
}

/// What a recorded batch really took, at what its lots cost.
void add_batch(Pot& pot, const oils::BatchRecord& batch, const oils::Books& books) {
  for (const auto& use : batch.uses) {
    std::optional<double> per_kg;
    if (use.from_shelf) {
      for (const auto& lot : books.shelf().lots) {
        if (lot.oil == use.what && lot.lot == use.lot) per_kg = lot.price_per_kg;
      }
    }
    for (const auto& receipt : books.ledger().receipts) {
      if (!per_kg && receipt.what == use.what && receipt.lot == use.lot && receipt.paid)
        per_kg = core::units(*receipt.paid) / receipt.grams * 1000;
    }
    const bool lye = use.what == "water" ||
                     use.what == core::name(core::Alkali::sodium_hydroxide) ||
                     use.what == core::name(core::Alkali::potassium_hydroxide);
    const bool oil = use.from_shelf || books.shelf().library.find(use.what) != nullptr;
    pot.add(oil   ? core::CostKind::oils
            : lye ? core::CostKind::lye
                  : core::CostKind::additives,
            use.what, use.lot, use.grams, per_kg);
  }
}

void add_way(Priced& out, const char* name, const std::string& margin, const std::string& price,
             const std::optional<SellingWish>& wish, double tax) {
  if (!margin.empty() && !price.empty())
    throw UsageError{fmt::format("{}: give a margin or a price, not both.", name)};
  SellingWish asked = wish.value_or(SellingWish{});
  if (!margin.empty()) asked = {typed_fraction(margin, "the margin"), {}};
  if (!price.empty()) asked = {{}, typed_money(price, "the price")};
  if (asked.margin)
    out.ways.push_back({name, true, core::least_price(out.cost.per_bar, *asked.margin, tax)});
  else if (asked.price)
    out.ways.push_back({name, false, core::judged_price(out.cost.per_bar, *asked.price, tax)});
}

Priced price(const PriceOptions& options) {
  const oils::Library base = load_library(options.common);
  Priced out;
  Costs costs;
  costs.currency = "";
  if (options.file.empty() == options.batch.empty())
    throw UsageError{"Name a recipe or batch file, or a recorded batch with '--batch'."};
  std::optional<oils::Books> books;
  std::optional<oils::Shelf> shelf;
  std::string diagnostics;
  if (!options.batch.empty()) {
    books.emplace(open_books(options, oils::Books::Mode::look, diagnostics));
  } else {
    const auto named = shelf_named_in(options.file);
    if (!options.shelf.empty() || named)
      shelf = oils::read_shelf(options.shelf.empty() ? *named : options.shelf, base);
  }
  const oils::Library& library = books ? books->shelf().library : shelf ? shelf->library : base;
  const std::string shelf_currency = books   ? books->shelf().currency
                                     : shelf ? shelf->currency
                                             : std::string();
  if (!options.costs.empty()) costs = read_costs(options.costs, library);
  if (costs.currency.empty()) costs.currency = shelf_currency;
  if (!shelf_currency.empty() && costs.currency != shelf_currency)
    throw core::InputError({options.costs, 0, 0},
                           fmt::format("the costs are in {}, the shelf's prices in {}",
                                       costs.currency, shelf_currency),
                           "Turn one of them: no rate of exchange is known here.");
  out.currency = costs.currency;
  out.sales_tax = costs.sales_tax;
  Pot pot(costs, out.currency);
  int bars = 0;
  if (books) {
    const auto& batch = oils::need_batch(books->ledger(), options.batch, books->journal_file());
    out.name = batch.id;
    bars = batch.bars;
    add_batch(pot, batch, *books);
    if (!costs.workshop.unsellable && batch.spoilt() > 0) {
      costs.workshop.unsellable = batch.spoilt();
      out.remarks.push_back(
          fmt::format("{} of it are recorded as spoilt.", bars_words(batch.spoilt())));
    }
  } else {
    const MakePlan plan = make_plan(options.file, library, shelf ? &*shelf : nullptr, options.bars);
    out.name = plan.name.empty() ? plan.file : plan.name;
    bars = plan.bars;
    add_plan(pot, plan, shelf ? &*shelf : nullptr, out);
  }
  if (bars < 1) throw UsageError{"The file does not say how many bars: give '--bars'."};
  out.cost = core::batch_cost(pot.items, costs.workshop, bars);
  add_way(out, "wholesale", options.wholesale_margin, options.wholesale_price, costs.wholesale, 0);
  add_way(out, "retail", options.margin, options.price, costs.retail, costs.sales_tax);
  std::string unknown;
  for (const auto& line : out.cost.lines) {
    if (!line.known && unknown.find(line.what) == std::string::npos)
      unknown += (unknown.empty() ? "" : ", ") + line.what;
  }
  if (!unknown.empty())
    out.remarks.push_back(
        fmt::format("No price is known for {}: the cost is too low by that. Enter it "
                    "under 'prices:' in the cost file, or with the lot.",
                    unknown));
  return out;
}

std::string text(const Priced& priced) {
  Screen screen(colour_wanted());
  const std::string& unit = priced.currency;
  screen.title(priced.name,
               fmt::format("{}, {} to sell", bars_words(priced.cost.bars), priced.cost.sellable));
  screen.heading("THIS BATCH COSTS", unit);
  std::vector<std::vector<std::string>> rows;
  for (const auto& line : priced.cost.lines)
    rows.push_back({core::word(line.kind), line.what,
                    line.known ? core::money_text(line.cents) : "?", line.how});
  rows.push_back({"", "in all", core::money_text(priced.cost.total), ""});
  screen.table("llrl", rows);
  screen.heading("A BAR COSTS", money(priced.cost.per_bar, unit));
  if (priced.cost.sellable < priced.cost.bars)
    screen.sentence(fmt::format("{} of it carry the {} that cannot be sold.",
                                money(priced.cost.lost_per_bar, unit),
                                bars_words(priced.cost.bars - priced.cost.sellable)));
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
  for (const auto& remark : priced.remarks) screen.sentence(remark, "!");
  return screen.text();
}

std::string json(const Priced& priced) {
  auto object = json_head("price", priced.cost.complete ? "reckoned" : "incomplete");
  object["name"] = priced.name;
  object["currency"] = priced.currency;
  object["bars"] = priced.cost.bars;
  object["sellable"] = priced.cost.sellable;
  object["lines"] = Json::array();
  for (const auto& line : priced.cost.lines)
    object["lines"].push_back({{"kind", core::word(line.kind)},
                               {"what", line.what},
                               {"cost", core::units(line.cents)},
                               {"known", line.known},
                               {"how", line.how}});
  object["cost"] = {{"per_batch", core::units(priced.cost.total)},
                    {"per_bar", priced.cost.per_bar}};
  object["prices"] = Json::array();
  for (const auto& way : priced.ways)
    object["prices"].push_back({{"way", way.name},
                                {"price", core::units(way.price.shown)},
                                {"net", way.price.net},
                                {"margin_percent", 100 * way.price.margin},
                                {"earned", way.price.earned}});
  object["remarks"] = priced.remarks;
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
      "  barwright price yard-bar.yaml --costs yard-costs.yaml --margin \"55 %\"\n"
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
      const Priced priced = price(*options);
      return Outcome{0, options->common.json ? json(priced) : text(priced), {}};
    };
  });
}

}  // namespace barwright::app
