#include "solver/app/sheet/sheet_lines.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/bench/mould.hpp"
#include "core/bench/release.hpp"
#include "core/bench/temperature.hpp"
#include "core/lye/lye_cautions.hpp"
#include "core/lye/lye_order.hpp"
#include "core/units/weight_text.hpp"
#include "solver/app/blend/text_blend.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/app/sheet/sheet_after.hpp"
#include "solver/app/sheet/sheet_lye.hpp"
#include "solver/app/sheet/vessel.hpp"
#include "solver/books/on_sheet.hpp"

namespace barwright::app {
namespace {

using batch::BatchPlan;
using batch::BatchTimes;
using batch::PartPlan;

/// Small weights as the maker wrote them, finer than the scale where need be.
std::string small(double weight, double step) {
  const bool fits = std::abs(weight - core::rounded(weight, step)) < 1e-6;
  return fits ? grams(weight, step) : grams(weight, step / 10) + " (finer scale)";
}

SheetTable oils_table(const BatchPlan& plan, const PartPlan& part) {
  SheetTable table;
  table.title = "Weigh: " + part.part->name + ", oils";
  table.into = part.part->name;
  table.column = "if forgotten";
  table.beside = "pot on the scale, press zero; or let it stay and read the running total";
  Vessel vessel(table, plan.scales.oils.step);
  std::size_t line = 0;
  const auto forgotten = [&](std::size_t i) {
    return i < part.recipe.forgotten.size() ? part.recipe.forgotten[i] : core::Forgotten{};
  };
  for (const auto& oil : part.recipe.oils) {
    const auto one = forgotten(line++);
    vessel.add(oil.name, oil.grams, left_words(one), one.lye_heavy);
  }
  for (const auto& fat : part.recipe.other_fats) {
    const auto one = forgotten(line++);
    table.lines.push_back({fat.name, grams(fat.grams, plan.scales.oils.step), "own cups",
                           left_words(one), one.lye_heavy});
  }
  return table;
}

/// What a portion of scent is in the bar, what caps it, what it is stirred into, when it flashes.
std::string scent_words(const BatchPlan& plan, const batch::ScentPlan& scent,
                        const batch::ScentPortion& portion) {
  std::string out;
  if (scent.soaked_in && scent.grams > 0) {
    out = fmt::format("stirred into {} of {} an hour before, all of it goes in; ",
                      small(core::rounded(scent.soaked_in->grams * portion.grams / scent.grams,
                                          plan.scales.lye.step),
                            plan.scales.lye.step),
                      scent.soaked_in->name);
  }
  out += percent(portion.in_bar, 2) + " of the finished bar";
  if (&portion != &scent.portions.front()) return out + "; the rest as above";
  out += scent.limit ? "; certificate allows " + percent(*scent.limit, 2)
                     : "; certificate allows ______ % (not known here)";
  if (scent.capped) out += "; CAPPED by it";
  if (scent.flash_celsius) {
    out += fmt::format("; flash point {:.0f} C{}", *scent.flash_celsius,
                       scent.flash_said ? "" : " from memory");
  } else if (!scent.limit) {
    out += "; flash point ______ C";
  }
  return out;
}

SheetTable additions_table(const BatchPlan& plan, const PartPlan& part) {
  SheetTable table;
  table.title = "Weigh: " + part.part->name + ", additions";
  table.into = part.part->name;
  table.column = "when, how";
  for (const auto& line : part.additions) {
    std::string beside = line.when;
    if (!line.how.empty())
      beside += ": " + line.how;
    else if (line.known)
      beside += ": " + line.known->disperse;
    if (!line.remark.empty()) beside += " (" + line.remark + ")";
    table.lines.push_back({line.name, small(line.grams, plan.scales.lye.step), "", beside, false});
  }
  for (const auto& line : part.recipe.liquids) {
    if (core::in_lye(line.into) || !(line.grams > 0)) continue;
    table.lines.push_back({line.name, grams(line.grams, plan.scales.lye.step), "",
                           std::string(core::word(line.into)) +
                               ", as warm as the batter, in a thin "
                               "stream",
                           false});
  }
  for (const auto& scent : part.scents) {
    for (const auto& portion : scent.portions) {
      table.lines.push_back({books::scent_on_sheet(scent.scent->name, portion.colour),
                             grams(portion.grams, plan.scales.lye.step), "",
                             scent_words(plan, scent, portion), false});
    }
  }
  for (const auto& embed : part.part->embeds) {
    table.lines.push_back({embed.name, grams(embed.grams, plan.scales.oils.step), "",
                           fmt::format("from lot {}; {} {:.0f} mL of the mould{}", embed.lot,
                                       embed.by_volume ? "measured:" : "about", embed.volume_ml,
                                       embed.by_volume ? ", its weight reckoned: weigh it" : ""),
                           false});
  }
  for (const auto& line : part.on_top) {
    table.lines.push_back(
        {line.name, small(line.grams, plan.scales.lye.step), "", "on top, at the end", false});
  }
  return table;
}

SheetTable colours_table(const BatchPlan& plan, const PartPlan& part) {
  SheetTable table;
  table.title = "Colours: " + part.part->name;
  table.into = part.part->name;
  table.column = "how";
  const double step = plan.scales.oils.step;
  if (!part.wet_oil.empty()) {
    table.beside = part.wet_oil + " wets them: it is counted as fat in the lye";
  }
  for (const auto& colour : part.colours) {
    table.lines.push_back({colour.name + ", " + percent(colour.share),
                           grams(colour.batter_grams, step), "", "of batter: pour it off", false,
                           SheetLine::kNotTyped});
    for (const auto& line : colour.with) {
      std::string how;
      if (colour.wet_grams > 0) {
        how = &line == &colour.with.front()
                  ? fmt::format("into {} of {}", grams(colour.wet_grams, step), part.wet_oil)
                  : "into the same oil";
      }
      if (!line.remark.empty()) how += (how.empty() ? "" : "; ") + line.remark;
      if (how.empty() && line.known) how = line.known->disperse;
      table.lines.push_back({"  " + line.name, small(line.grams, plan.scales.lye.step), "", how,
                             false, books::stuff_on_sheet(line.name, colour.name)});
    }
  }
  return table;
}

void temperatures(const BatchPlan& plan, const BatchTimes& times, Sheet& sheet) {
  const auto c = [](double celsius) { return fmt::format("{:.0f} C", celsius); };
  for (std::size_t i = 0; i < plan.parts.size(); ++i) {
    const auto& part = plan.parts[i];
    const auto& one = times.parts[i];
    std::string means;
    if (part.part->method == targets::Part::Method::creamed_fats) {
      means = fmt::format("{:.0f} % solid: {}; whips from {} to {}", 100 * one.solid_share,
                          !one.solids_fit   ? "will not whip"
                          : one.solids_near ? "near the edge, look first"
                                            : "whips",
                          c(one.firm_celsius), c(one.soft_celsius));
    } else {
      means = one.solids_fit
                  ? fmt::format("no false trace (from {} on)", c(std::ceil(one.clear_celsius)))
                  : fmt::format("FALSE TRACE below {}", c(std::ceil(one.clear_celsius)));
    }
    sheet.temperatures.push_back(
        {part.part->name, c(one.oils_celsius) + (one.oils_said ? "" : " (ours)"),
         c(one.lye_celsius) + (one.lye_said ? "" : " (ours)"), c(one.batter_celsius), means});
  }
}

SheetTable list_table(const BatchPlan& plan) {
  SheetTable table;
  table.title = "All together: have it there before you start";
  table.column = "for";
  for (const auto& line : plan.list) {
    std::string parts;
    const double step = line.scale_of_lye ? plan.scales.lye.step : plan.scales.oils.step;
    for (const auto& [part, weight] : line.parts) {
      parts += (parts.empty() ? "" : ", ") + part;
      if (line.parts.size() > 1) parts += " " + grams(weight, step);
    }
    bool missing = false;
    if (line.on_shelf && *line.on_shelf < line.grams) {
      missing = true;
      parts +=
          fmt::format("; BUY {}: shelf has {}", grams(std::ceil(line.grams - *line.on_shelf), 1),
                      grams(*line.on_shelf, 1));
    }
    table.lines.push_back({line.name, small(line.grams, step), "", parts, missing});
  }
  return table;
}

void safety(const BatchPlan& plan, const BatchTimes& times, Sheet& sheet) {
  for (const auto& part : plan.parts) {
    if (part.salt_of_oils < batch::kSaltBar || part.part->size) continue;
    sheet.dangers.push_back(
        plan.file.cut
            ? fmt::format(
                  "SALT BAR, {:.0f} % salt of the oils: it is hard within hours. Have gloves "
                  "and knife ready, look from {:.0f} h after pouring, every quarter of an "
                  "hour, cut while it is warm; after {:.0f} h it crumbles. Or pour single "
                  "moulds.",
                  100 * part.salt_of_oils, batch::kSaltBarCut - 1, batch::kSaltBarCrumbles)
            : fmt::format("SALT BAR, {:.0f} % salt of the oils: single moulds, never a log left "
                          "overnight: it crumbles under the knife.",
                          100 * part.salt_of_oils));
  }
  const auto& always = core::lye_dangers();
  sheet.dangers.insert(sheet.dangers.end(), always.begin(), always.end());
  double lye = 0, batter = 0;
  for (const auto& pot : times.pots) lye = std::max(lye, pot.grams);
  for (const auto& part : plan.parts) batter = std::max(batter, part.recipe.total_grams);
  sheet.dangers.push_back(
      fmt::format("Headroom: lye pot of at least {:.1f} L for {} of lye, batter pot of at "
                  "least {:.1f} L.",
                  std::ceil(lye / 1.33 / 1000 * 2 * 10) / 10, core::round_grams(lye),
                  std::ceil(batter / 0.985 / 1000 * 1.4 * 10) / 10));
  for (const auto& pot : times.pots) {
    std::string heat = pot.name + ": " +
                       (pot.in_ice ? core::ice_heat_words(pot.fresh_celsius)
                                   : core::heat_words(pot.fresh_celsius)) +
                       ".";
    if (pot.ice.ice_grams > 0) {
      heat += fmt::format(
          " Cooler: {} of the water as ice, {} kept liquid (no crust of flake on ice): "
          "about {:.0f} C.",
          core::round_grams(pot.ice.ice_grams), core::round_grams(pot.ice.liquid_grams),
          pot.ice.peak_celsius);
    }
    sheet.dangers.push_back(heat);
  }
  sheet.gear = {"goggles that close all round",
                "gloves with long cuffs",
                "sleeves and apron",
                "closed shoes",
                "fan or open window",
                "tap and eye rinse within reach"};
  sheet.first_aid = core::lye_first_aid();
  sheet.first_aid.emplace_back(
      "The poison centre or the emergency number of your country: ____________________");
}

}  // namespace

Sheet sheet_of(const batch::BatchPlan& plan, const batch::BatchTimes& times) {
  Sheet sheet;
  sheet.title = plan.file.name;
  sheet.date = plan.file.bench_date ? plan.file.bench_date->text() : "date: __________";
  for (const auto& part : plan.parts) {
    sheet.parts.push_back(part.part->name);
    sheet.facts.push_back(fmt::format(
        "{}: {} of batter, superfat {} ({} to {} over lots and scales)", part.part->name,
        grams(part.recipe.total_grams, 1), percent(part.check.superfat),
        percent(part.check.band.low), percent(part.check.band.high)));
  }
  if (plan.bars > 0) {
    double each = 0;
    for (const auto& log : plan.logs) {
      if (!log.cut || !plan.file.cut || log.bar_width_mm <= 0) continue;
      each = log.bar_width_mm * log.bar_height_mm * plan.file.cut->slice / 1000 *
             plan.body().batter_density;
      break;
    }
    sheet.facts.push_back(
        each > 0 ? fmt::format("{} bars, about {} of body each when cut, {} cured", plan.bars,
                               core::round_grams(each),
                               core::round_grams(each * core::cured_fraction(plan.body().recipe)))
                 : fmt::format("{} bars", plan.bars));
  }
  safety(plan, times, sheet);
  for (const auto& step : batch::clock_of(plan, times)) {
    sheet.clock.push_back({batch::clock_text(plan, step.minutes), step.part, step.what, step.sign,
                           step.minutes, step.lye});
  }
  sheet.list = list_table(plan);
  for (const auto& part : plan.parts) sheet.weigh.push_back(oils_table(plan, part));
  for (auto& table : lye_tables(plan)) sheet.weigh.push_back(std::move(table));
  for (const auto& part : plan.parts) {
    SheetTable table = additions_table(plan, part);
    if (!table.lines.empty()) sheet.weigh.push_back(table);
    if (!part.colours.empty()) sheet.colours.push_back(colours_table(plan, part));
  }
  temperatures(plan, times, sheet);
  sheet.after = after_pour(plan, times);
  for (const auto& check : times.checks) {
    sheet.checks.push_back({check.what, check.trade, check.ours, check.why});
  }
  for (const auto* notes : {&plan.notes, &times.notes}) {
    for (const auto& note : *notes) {
      // What can hurt comes first, with the rest of it.
      (note.severity == core::Severity::danger ? sheet.dangers : sheet.mind).push_back(note.text);
    }
  }
  return sheet;
}

}  // namespace barwright::app
