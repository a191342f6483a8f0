#include "solver/app/sheet/sheet_lines.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/bench/mould.hpp"
#include "core/bench/release.hpp"
#include "core/bench/temperature.hpp"
#include "core/lye/lye_cautions.hpp"
#include "core/lye/lye_order.hpp"
#include "solver/app/blend/text_blend.hpp"
#include "solver/app/print/screen.hpp"

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

/// Lines into one vessel that stays on the scale.
class Vessel {
 public:
  Vessel(SheetTable& table, double step) : table_(table), step_(step) {}
  void add(const std::string& name, double weight, const std::string& beside = {},
           bool danger = false) {
    total_ += weight;
    table_.lines.push_back({name, grams(weight, step_), grams(total_, step_), beside, danger});
  }
  double total() const { return total_; }

 private:
  SheetTable& table_;
  double step_;
  double total_ = 0;
};

std::string left(const core::Forgotten& one) {
  if (one.nothing_left) return "no fat left: burns";
  if (one.superfat < 0) return "LYE LEFT OVER: burns, do not use";
  if (one.lye_heavy) return at_worst(one.superfat, one.worst) + ": burns, do not use";
  return fmt::format("superfat {}", percent(one.superfat));
}

SheetTable oils_table(const BatchPlan& plan, const PartPlan& part) {
  SheetTable table;
  table.title = "Weigh: " + part.part->name + ", oils";
  table.column = "if forgotten";
  table.beside = "pot on the scale, press zero; or let it stay and read the running total";
  Vessel vessel(table, plan.scales.oils.step);
  std::size_t line = 0;
  const auto forgotten = [&](std::size_t i) {
    return i < part.recipe.forgotten.size() ? part.recipe.forgotten[i] : core::Forgotten{};
  };
  for (const auto& oil : part.recipe.oils) {
    const auto one = forgotten(line++);
    vessel.add(oil.name, oil.grams, left(one), one.lye_heavy);
  }
  for (const auto& fat : part.recipe.other_fats) {
    const auto one = forgotten(line++);
    table.lines.push_back(
        {fat.name, grams(fat.grams, plan.scales.oils.step), "own cups", left(one), one.lye_heavy});
  }
  return table;
}

/// What is left if this line of the part is forgotten, and whether that is free lye.
struct IfForgotten {
  std::string words;  ///< behind what else is said of the line; empty where nothing hangs on it
  bool lye_heavy = false;
};
IfForgotten if_forgotten(const PartPlan& part, const std::string& name) {
  for (const auto& one : part.recipe.forgotten) {
    if (one.line == name) return {"; forgotten: " + left(one), one.lye_heavy};
  }
  return {};
}

void lye_tables(const BatchPlan& plan, std::vector<SheetTable>& out) {
  const double step = plan.scales.lye.step;
  if (plan.shared) {
    const auto& lye = *plan.shared;
    SheetTable table;
    table.title = "Weigh: lye pot, for all parts";
    table.column = "mind";
    table.beside =
        fmt::format("water first, then alkali INTO the water. Lye of {}. Making weight {}",
                    percent(lye.concentration), grams(lye.making_weight, step));
    Vessel vessel(table, step);
    vessel.add("water", lye.water_grams, "cold; into the lye pot first");
    for (const auto& line : lye.alkali) {
      vessel.add(
          core::name(line.alkali), line.grams,
          fmt::format("reckoned as {} pure; weigh in its own dry cup", percent(line.purity)));
    }
    out.push_back(table);
    SheetTable shares;
    shares.title = "Share out the lye, once topped up to its making weight";
    shares.column = "mind";
    for (std::size_t i = 0; i < lye.portions.size(); ++i) {
      const auto& portion = lye.portions[i];
      const double lost = core::kBoiledOff * lye.making_weight;
      const auto dry = core::check_untopped(lye, plan.needs[i], portion, lost, plan.scales);
      shares.lines.push_back(
          {portion.part, grams(portion.solution_grams, step), "",
           fmt::format("superfat {} ({} to {}); not topped up after losing 3 %: {}{}",
                       percent(portion.check.superfat), percent(portion.check.band.low),
                       percent(portion.check.band.high), at_worst(dry.superfat, dry.band.low),
                       dry.band.low < 0 ? ": do not use" : ""),
           dry.band.low < 0});
    }
    shares.lines.push_back({"stays in the pot", grams(lye.left_grams, step), "", "", false});
    out.push_back(shares);
  }
  for (const auto& part : plan.parts) {
    SheetTable table;
    table.column = "mind";
    Vessel vessel(table, step);
    if (plan.shared) {
      // Made for all: what belongs to one part's lye joins its portion, once that is cool.
      table.title = "Into the lye of the " + part.part->name;
      for (const auto& line : part.into_lye) {
        vessel.add(line.name, line.grams, "into its portion of the made lye, below 45 C");
      }
    } else {
      const auto order = core::lye_order(part.recipe);
      table.title = "Weigh: " + part.part->name + ", lye";
      table.beside =
          fmt::format("{}. Lye of {}; superfat {} ({} to {})", core::lye_order_words(order),
                      percent(part.recipe.mixed_concentration), percent(part.check.superfat),
                      percent(part.check.band.low), percent(part.check.band.high));
      std::size_t alkali = 0;
      for (const auto& next : order) {
        const bool own_cup = next.kind == core::LyeStep::Kind::alkali;
        if (own_cup) {
          vessel.add(next.name, next.grams,
                     fmt::format("{}; reckoned as {} pure; weigh in its own dry cup", next.how,
                                 percent(part.recipe.alkali[alkali++].purity)));
          continue;
        }
        const auto forgotten =
            next.kind == core::LyeStep::Kind::acid ? if_forgotten(part, next.name) : IfForgotten{};
        vessel.add(next.name, next.grams, next.how + forgotten.words, forgotten.lye_heavy);
      }
    }
    if (!table.lines.empty()) out.push_back(table);
    if (!plan.shared) continue;
    SheetTable acids;
    acids.title = "Into the oils of the " + part.part->name;
    acids.column = "mind";
    Vessel cup(acids, step);
    for (const auto& line : part.recipe.acids) {
      if (line.into != core::Into::oils) continue;
      const auto forgotten = if_forgotten(part, line.name);
      cup.add(line.name, line.grams,
              "before its lye; poured into made lye it spits" + forgotten.words,
              forgotten.lye_heavy);
    }
    if (!acids.lines.empty()) out.push_back(acids);
  }
}

SheetTable additions_table(const BatchPlan& plan, const PartPlan& part) {
  SheetTable table;
  table.title = "Weigh: " + part.part->name + ", additions";
  table.column = "when, how";
  for (const auto& line : part.additions) {
    std::string beside = line.when;
    if (line.known) beside += ": " + line.known->disperse;
    if (!line.remark.empty()) beside += " (" + line.remark + ")";
    table.lines.push_back({line.name, small(line.grams, plan.scales.lye.step), "", beside, false});
  }
  for (const auto& scent : part.scents) {
    for (const auto& portion : scent.portions) {
      table.lines.push_back(
          {scent.scent->name + (portion.colour.empty() ? "" : " in " + portion.colour),
           grams(portion.grams, plan.scales.lye.step), "",
           fmt::format("{} of the finished bar; certificate allows {}{}",
                       percent(portion.in_bar, 2), percent(scent.limit, 2),
                       scent.capped ? "; CAPPED by it" : ""),
           false});
    }
  }
  for (const auto& embed : part.part->embeds) {
    table.lines.push_back({embed.name, grams(embed.grams, plan.scales.oils.step), "",
                           "from lot " + embed.lot, false});
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
  table.column = "how";
  const double step = plan.scales.oils.step;
  if (!part.wet_oil.empty()) {
    table.beside = part.wet_oil + " wets them: it is counted as fat in the lye";
  }
  for (const auto& colour : part.colours) {
    table.lines.push_back({colour.name + ", " + percent(colour.share) + ": pour off",
                           grams(colour.batter_grams, step), "", "", false});
    for (const auto& line : colour.with) {
      std::string how;
      if (colour.wet_grams > 0) {
        how = &line == &colour.with.front()
                  ? fmt::format("into {} of {}", grams(colour.wet_grams, step), part.wet_oil)
                  : "into the same oil";
      }
      if (!line.remark.empty()) how += (how.empty() ? "" : "; ") + line.remark;
      if (how.empty() && line.known) how = line.known->disperse;
      table.lines.push_back(
          {"  " + line.name, small(line.grams, plan.scales.lye.step), "", how, false});
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

std::string span_words(double hours) {
  if (hours < 1.95) return fmt::format("about {:.0f} min", 60 * hours);
  return fmt::format("about {:.1f} h", hours);
}

void after_pour(const BatchPlan& plan, const BatchTimes& times, Sheet& sheet) {
  for (const auto& part : plan.parts) {
    std::vector<std::string> lines;
    if (!part.part->pour.empty()) lines.push_back(part.part->pour + ".");
    if (!part.part->size) {
      for (const auto& log : plan.logs) {
        lines.push_back(log.length_mm > 0
                            ? fmt::format("{} x {}: fill to {:.0f} mm, {:.0f} g each.", log.count,
                                          log.name, log.bar_height_mm,
                                          core::batter_grams(log.volume_ml))
                            : fmt::format("{} x {}: {:.0f} g each.", log.count, log.name,
                                          core::batter_grams(log.volume_ml)));
      }
      if (plan.file.samples) {
        lines.push_back(fmt::format("{} samples of {:.0f} g: one to test, one to keep.",
                                    plan.file.samples->count, plan.file.samples->each_grams));
      }
    } else {
      lines.push_back(fmt::format("When: {}; about {} after pouring.",
                                  part.part->when.empty()
                                      ? "body holds a fingertip mark and is below 35 C"
                                      : part.part->when,
                                  span_words(times.topping_hours).substr(6)));
      lines.push_back(fmt::format("{:.0f} g per bar along the whole top; {} stays in the bag.",
                                  part.part->size->per_bar_grams,
                                  percent(part.part->size->left_in_bag)));
    }
    sheet.after.push_back({(part.part->size ? "Top: " : "Pour: ") + part.part->name, lines});
  }
  std::vector<std::string> gel = {fmt::format(
      "{}: hottest in the middle about {:.0f} C ({:.0f} to {:.0f}) after {:.1f} h; this "
      "batter turns to gel near {:.0f} C.",
      times.gel.gel == core::Gel::no    ? "No gel"
      : times.gel.gel == core::Gel::yes ? "It gels"
                                        : "It may gel in the middle",
      times.gel.peak_celsius, times.gel.peak_low, times.gel.peak_high, times.gel.peak_hours,
      times.gel.gel_celsius)};
  gel.push_back(times.covered ? "Covered." : "Leave it bare, moulds a hand's breadth apart.");
  sheet.after.push_back({"Rest", gel});

  std::vector<std::string> cut;
  double firm = 0;
  int weeks = 0;
  for (std::size_t i = 0; i < plan.parts.size(); ++i) {
    if (!plan.parts[i].part->size) firm = times.parts[i].cut_hours;
    weeks = std::max(weeks, times.parts[i].cure_weeks);
  }
  cut.push_back(fmt::format(
      "By this blend firm enough from about {:.0f} h{}.", firm,
      plan.file.after.unmould.empty() ? "" : " (your plan: " + plan.file.after.unmould + ")"));
  cut.push_back("Gloves: fresh soap is still caustic. Cut one end, look, then the rest.");
  for (const auto& log : plan.logs) {
    if (!log.cut || !plan.file.cut) continue;
    std::string marks;
    for (const double at : log.cut->cuts_mm)
      marks += fmt::format("{}{:g}", marks.empty() ? "" : ", ", at);
    cut.push_back(fmt::format("{}: {} bars of {:g} mm. Blade at {} mm from one end; {:g} mm left.",
                              log.name, log.cut->bars, plan.file.cut->slice, marks,
                              log.cut->left_over_mm));
  }
  if (plan.trim_grams > 1) {
    cut.push_back(fmt::format("Trims and kerf take about {:.0f} g of the body.", plan.trim_grams));
  }
  sheet.after.push_back({"Cut", cut});

  std::vector<std::string> cure;
  cure.push_back(
      fmt::format("By this blend {} weeks{}.", weeks,
                  plan.file.after.cure_hours
                      ? fmt::format(" (your plan: {:g} weeks)", *plan.file.after.cure_hours / 168)
                      : ""));
  std::string day;
  if (plan.file.bench_date) {
    const auto made = core::find_day(plan.file.bench_date->text());
    if (made) day = core::text(core::ready_day(*made, batch::cure_hours(plan, times)));
  }
  if (!day.empty()) cure.push_back("Not before " + day + ".");
  cure.push_back("On racks, airy, dark, apart.");
  sheet.after.push_back({"Cure", cure});
  sheet.after.push_back(
      {"Test, then release",
       {fmt::format(
            "Keep all bars on hold. Test {}{}: look for crystals, weeping, a zap or high pH "
            "in each part and colour; a bar that fails is not sold.",
            plan.file.after.release_test.empty() ? "every part" : plan.file.after.release_test,
            plan.file.after.release_before.empty() ? ""
                                                   : " before " + plan.file.after.release_before),
        "Selling: the law of your country on cosmetics and labels decides, not this sheet."}});
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
  sheet.dangers = core::lye_dangers();
  double lye = 0, batter = 0;
  for (const auto& pot : times.pots) lye = std::max(lye, pot.grams);
  for (const auto& part : plan.parts) batter = std::max(batter, part.recipe.total_grams);
  sheet.dangers.push_back(
      fmt::format("Headroom: lye pot of at least {:.1f} L for {:.0f} g of lye, batter pot of at "
                  "least {:.1f} L.",
                  std::ceil(lye / 1.33 / 1000 * 2 * 10) / 10, lye,
                  std::ceil(batter / 0.985 / 1000 * 1.4 * 10) / 10));
  for (const auto& pot : times.pots) {
    std::string heat = pot.name + ": " + core::heat_words(pot.fresh_celsius) + ".";
    if (pot.ice.ice_grams > 0) {
      heat += fmt::format(
          " Cooler: {:.0f} g of the water as ice, {:.0f} g kept liquid (no crust of flake on ice): "
          "about {:.0f} C.",
          pot.ice.ice_grams, pot.ice.liquid_grams, pot.ice.peak_celsius);
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
             core::batter_density().span.typical;
      break;
    }
    sheet.facts.push_back(each > 0 ? fmt::format("{} bars, about {:.0f} g of body each when cut, "
                                                 "{:.0f} g cured",
                                                 plan.bars, each,
                                                 each * core::cured_fraction(plan.body().recipe))
                                   : fmt::format("{} bars", plan.bars));
  }
  safety(plan, times, sheet);
  for (const auto& step : batch::clock_of(plan, times)) {
    sheet.clock.push_back({batch::clock_text(plan, step.minutes), step.part, step.what, step.sign});
  }
  sheet.list = list_table(plan);
  for (const auto& part : plan.parts) sheet.weigh.push_back(oils_table(plan, part));
  lye_tables(plan, sheet.weigh);
  for (const auto& part : plan.parts) {
    SheetTable table = additions_table(plan, part);
    if (!table.lines.empty()) sheet.weigh.push_back(table);
    if (!part.colours.empty()) sheet.colours.push_back(colours_table(plan, part));
  }
  temperatures(plan, times, sheet);
  after_pour(plan, times, sheet);
  for (const auto& check : times.checks) {
    sheet.checks.push_back({check.what, check.trade, check.ours, check.why});
  }
  for (const auto* notes : {&plan.notes, &times.notes}) {
    for (const auto& note : *notes) {
      sheet.mind.push_back((note.severity == core::Severity::danger ? "DANGER: " : "") + note.text);
    }
  }
  return sheet;
}

}  // namespace barwright::app
