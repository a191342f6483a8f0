#include "solver/app/sheet/sheet_lye.hpp"

#include <fmt/format.h>

#include "core/lye/lye_cautions.hpp"
#include "core/lye/lye_order.hpp"
#include "solver/app/blend/text_blend.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/app/sheet/vessel.hpp"
#include "solver/books/on_sheet.hpp"

namespace barwright::app {
namespace {

using batch::BatchPlan;
using batch::PartPlan;

/// What is left if this line of the part is forgotten, and whether that is free lye.
struct IfForgotten {
  std::string words;  ///< behind what else is said of the line; empty where nothing hangs on it
  bool lye_heavy = false;
};
IfForgotten if_forgotten(const PartPlan& part, const std::string& name) {
  for (const auto& one : part.recipe.forgotten) {
    if (one.line == name) return {"; forgotten: " + left_words(one), one.lye_heavy};
  }
  return {};
}

SheetTable shared_pot(const core::SharedLye& lye, double step) {
  SheetTable table;
  table.title = "Weigh: lye pot, for all parts";
  table.into = books::kLyePot;
  table.column = "mind";
  table.beside = fmt::format("water first, then alkali INTO the water. Lye of {}. Making weight {}",
                             percent(lye.concentration), grams(lye.making_weight, step));
  Vessel vessel(table, step);
  vessel.add("water", lye.water_grams, "cold; into the lye pot first");
  for (const auto& line : lye.alkali) {
    vessel.add(core::name(line.alkali), line.grams,
               fmt::format("reckoned as {} pure; weigh in its own dry cup", percent(line.purity)));
  }
  return table;
}

SheetTable portions(const BatchPlan& plan, const core::SharedLye& lye) {
  const double step = plan.scales.lye.step;
  SheetTable shares;
  shares.into = books::kPortion;
  shares.title = "Share out the lye, once topped up to its making weight";
  shares.column = "mind";
  for (std::size_t i = 0; i < lye.portions.size(); ++i) {
    const auto& portion = lye.portions[i];
    const double lost = core::kBoiledOff * lye.making_weight;
    const auto dry = core::check_untopped(lye, plan.needs[i], portion, lost, plan.scales);
    shares.lines.push_back(
        {portion.part, lye_grams(portion.solution_grams, step), "",
         fmt::format("superfat {} ({} to {}); not topped up after losing 3 %: {}{}",
                     percent(portion.check.superfat), percent(portion.check.band.low),
                     percent(portion.check.band.high), at_worst(dry.superfat, dry.band.low),
                     dry.band.low < 0 ? ": do not use" : ""),
         dry.band.low < 0});
  }
  shares.lines.push_back(
      {"stays in the pot", grams(lye.left_grams, step), "", "", false, SheetLine::kNotTyped});
  return shares;
}

// Made for all: what belongs to one part's lye joins its portion, once that is cool.
SheetTable into_portion(const PartPlan& part, double step) {
  SheetTable table;
  table.column = "mind";
  table.into = part.part->name;
  table.title = "Into the lye of the " + part.part->name;
  Vessel vessel(table, step);
  for (const auto& line : part.into_lye) {
    vessel.add(line.name, line.grams, "into its portion of the made lye, below 45 C");
  }
  return table;
}

SheetTable own_lye(const PartPlan& part, double step) {
  SheetTable table;
  table.column = "mind";
  const auto order = core::lye_order(part.recipe);
  table.title = "Weigh: " + part.part->name + ", lye";
  table.into = part.part->name;
  table.beside = fmt::format("into the pot in this order; lye of {}",
                             percent(part.recipe.mixed_concentration));
  Vessel vessel(table, step);
  std::size_t alkali = 0;
  for (const auto& next : order) {
    if (next.kind == core::LyeStep::Kind::alkali) {
      vessel.add(next.name, next.grams,
                 fmt::format("{}; reckoned as {} pure; weigh in its own dry cup", next.how,
                             percent(part.recipe.alkali[alkali++].purity)));
      continue;
    }
    const auto forgotten =
        next.kind == core::LyeStep::Kind::acid ? if_forgotten(part, next.name) : IfForgotten{};
    vessel.add(next.name, next.grams, next.how + forgotten.words, forgotten.lye_heavy);
  }
  return table;
}

SheetTable acids(const PartPlan& part, double step) {
  SheetTable table;
  table.into = part.part->name;
  table.title = "Into the oils of the " + part.part->name;
  table.column = "mind";
  Vessel cup(table, step);
  for (const auto& line : part.recipe.acids) {
    if (line.into != core::Into::oils) continue;
    const auto forgotten = if_forgotten(part, line.name);
    cup.add(line.name, line.grams,
            "before its lye; poured into made lye it spits" + forgotten.words, forgotten.lye_heavy);
  }
  return table;
}

}  // namespace

std::vector<SheetTable> lye_tables(const BatchPlan& plan) {
  const double step = plan.scales.lye.step;
  std::vector<SheetTable> out;
  const auto add = [&](SheetTable table) {
    if (!table.lines.empty()) out.push_back(std::move(table));
  };
  if (plan.shared) {
    add(shared_pot(*plan.shared, step));
    add(portions(plan, *plan.shared));
  }
  for (const auto& part : plan.parts) {
    add(plan.shared ? into_portion(part, step) : own_lye(part, step));
    if (plan.shared) add(acids(part, step));
  }
  return out;
}

}  // namespace barwright::app
