#include "solver/books/batch_price.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

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

  /// Packaging, counted; its price is for 1000 pieces.
  void add_pieces(const std::string& what, const std::string& lot, double pieces,
                  std::optional<double> per_1000) {
    core::CostItem item;
    item.kind = core::CostKind::packaging;
    item.what = what;
    item.known = per_1000.has_value();
    item.amount = per_1000 ? *per_1000 * pieces / 1000 : 0;
    item.how = fmt::format("{} at {}{}", core::fixed(pieces, 0),
                           per_1000 ? core::fixed(*per_1000 / 1000, 2) + " each" : "no known price",
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

/// Returns what a kg of it costs, all lots with a price together; nothing where none has one.
std::optional<double> mean_price(const oils::Shelf& shelf, const std::string& what) {
  if (const auto holding = shelf.holding(what)) return holding->price_per_kg;
  double sum = 0;
  int lots = 0;
  for (const auto& lot : shelf.lots) {
    if (lot.oil != what || !lot.price_per_kg) continue;
    sum += *lot.price_per_kg;
    ++lots;
  }
  return lots > 0 ? std::optional(sum / lots) : std::nullopt;
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
    const auto stocked = shelf != nullptr ? shelf->name_of(line.what) : std::nullopt;
    const std::string what = stocked.value_or(line.what);
    if (!stocked || (line.kind != PlanKind::oil && !shelf->kind_of(what))) {
      pot.add(kind_of(line.kind), line.what, "", line.grams, {});
      continue;
    }
    const std::vector<oils::Wanted> wanted{{"", what, line.grams, line.grams}};
    try {
      for (const auto& draw : oils::draws(*shelf, wanted)) {
        const oils::Lot& lot = shelf->lots[draw.lot];
        pot.add(kind_of(line.kind), what, lot.lot, draw.grams, lot.price_per_kg);
      }
    } catch (const core::InputError&) {
      const auto mean = mean_price(*shelf, what);
      pot.add(kind_of(line.kind), what, "", line.grams, mean);
      out.remarks.push_back(
          fmt::format("The shelf does not hold enough {}: it is reckoned at {}.", what,
                      mean ? "the mean price of its lots" : "the cost file's price"));
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
    const bool oil = books.shelf().library.find(use.what) != nullptr;
    if (use.pieces) {
      pot.add_pieces(use.what, use.lot, use.grams, per_kg);
      continue;
    }
    pot.add(oil   ? core::CostKind::oils
            : lye ? core::CostKind::lye
                  : core::CostKind::additives,
            use.what, use.lot, use.grams, per_kg);
  }
}

/// Packaging of a batch still to be made, at what its lots cost.
void add_packaging(Pot& pot, const MakePlan& plan, int bars, const oils::Shelf* shelf) {
  for (const auto& [name, each] : plan.packed_in) {
    const auto what = shelf != nullptr ? shelf->name_of(name) : std::nullopt;
    pot.add_pieces(what.value_or(name), "", pieces_for(each, bars),
                   what ? mean_price(*shelf, *what) : std::nullopt);
  }
}

/// What is counted piece by piece is not counted by the bar once more.
core::Workshop packed_once(const Pot& pot, core::Workshop workshop, BatchPrice& out) {
  const bool counted = std::any_of(pot.items.begin(), pot.items.end(), [](const auto& item) {
    return item.kind == core::CostKind::packaging;
  });
  if (!counted || workshop.packaging_per_bar <= 0) return workshop;
  out.remarks.push_back(
      fmt::format("Packaging is counted by its pieces: the {} a bar of the cost file are left out.",
                  core::fixed(workshop.packaging_per_bar, 2)));
  workshop.packaging_per_bar = 0;
  return workshop;
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
  add_packaging(pot, plan, bars, shelf);
  out.cost = core::batch_cost(pot.items, packed_once(pot, costs.workshop, out), bars);
  add_unknown(out);
  return out;
}

BatchPrice price_of_batch(const oils::BatchRecord& batch, const Costs& costs,
                          const oils::Books& books) {
  BatchPrice out;
  out.name = batch.id;
  Pot pot(costs);
  add_batch(pot, batch, books);
  core::Workshop workshop = packed_once(pot, costs.workshop, out);
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
