#include "solver/books/batch_price.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/units/error.hpp"
#include "core/units/format.hpp"

namespace barwright::books {
namespace {

/// Adds up costs of things by name and price, in the order met.
class Pot {
 public:
  explicit Pot(const Costs& costs) : costs_(costs) {}

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
void add_plan(Pot& pot, const MakePlan& plan, const oils::Shelf* shelf, BatchPrice& out) {
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

void add_unknown(BatchPrice& out) {
  std::string unknown;
  for (const auto& line : out.cost.lines) {
    if (!line.known && unknown.find(line.what) == std::string::npos)
      unknown += (unknown.empty() ? "" : ", ") + line.what;
  }
  if (unknown.empty()) return;
  out.remarks.push_back(
      fmt::format("No price is known for {}: the cost is too low by that. Enter it "
                  "under 'prices:' in the cost file, or with the lot.",
                  unknown));
}

}  // namespace

BatchPrice price_of_plan(const MakePlan& plan, int bars, const Costs& costs,
                         const oils::Shelf* shelf) {
  BatchPrice out;
  out.name = plan.name.empty() ? plan.file : plan.name;
  Pot pot(costs);
  add_plan(pot, plan, shelf, out);
  out.cost = core::batch_cost(pot.items, costs.workshop, bars);
  add_unknown(out);
  return out;
}

BatchPrice price_of_batch(const oils::BatchRecord& batch, const Costs& costs,
                          const oils::Books& books) {
  BatchPrice out;
  out.name = batch.id;
  Pot pot(costs);
  add_batch(pot, batch, books);
  core::Workshop workshop = costs.workshop;
  if (!workshop.unsellable && batch.spoilt() > 0) {
    workshop.unsellable = batch.spoilt();
    out.remarks.push_back(
        fmt::format("{} of it are recorded as spoilt.",
                    batch.spoilt() == 1 ? "1 bar" : fmt::format("{} bars", batch.spoilt())));
  }
  out.cost = core::batch_cost(pot.items, workshop, batch.bars);
  add_unknown(out);
  return out;
}

std::optional<WayToSell> way_to_sell(const std::string& name, const SellingWish& wish,
                                     double per_bar, double tax) {
  if (wish.margin) return WayToSell{name, true, core::least_price(per_bar, *wish.margin, tax)};
  if (wish.price) return WayToSell{name, false, core::judged_price(per_bar, *wish.price, tax)};
  return std::nullopt;
}

}  // namespace barwright::books
