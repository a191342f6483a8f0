#include "solver/batch/batch_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/bench/temperature.hpp"
#include "core/lye/lye_order.hpp"
#include "core/units/format.hpp"
#include "core/units/weight_text.hpp"

namespace barwright::batch {
namespace {

using Method = targets::Part::Method;

constexpr double kFlashMargin = 5;  // C, judgement

std::string both(double celsius) {
  return fmt::format("{:.0f} C ({:.0f} F)", celsius, core::fahrenheit(celsius));
}

void solids_note(const PartPlan& part, const PartTimes& times, std::vector<core::Note>& notes) {
  const std::string& name = part.part->name;
  const double solid = 100 * times.solid_share;
  if (part.part->method == Method::creamed_fats) {
    const bool soft = times.solid_share < core::kCreamedLeast;
    if (!times.solids_fit) {
      notes.push_back(
          {core::Severity::caution,
           fmt::format(
               "The fats of the {} are too {} to whip at {:.0f} C: about {:.0f} % solid, 15 "
               "to 45 % wanted. {} {:.0f} C.",
               name, soft ? "soft" : "hard", times.oils_celsius, solid,
               soft ? "Cool them to" : "Let them warm to",
               soft ? times.soft_celsius : times.firm_celsius)});
    } else if (times.solids_near) {
      notes.push_back(
          {core::Severity::note,
           fmt::format("The fats of the {} are near the {} edge of what whips at {:.0f} "
                       "C: about {:.0f} % solid, give or take 9; 15 to 45 % wanted. They "
                       "must hold a spoon's mark before lye goes in.",
                       name, soft ? "soft" : "hard", times.oils_celsius, solid)});
    }
    return;
  }
  if (!times.solids_fit) {
    notes.push_back(
        {core::Severity::caution,
         fmt::format("False trace in the {}: at {:.0f} C about {:.0f} % of its fat is "
                     "solid, so it thickens without being soap and lye can pool. Work at "
                     "{:.0f} C or warmer.",
                     name, times.batter_celsius, solid, std::ceil(times.clear_celsius))});
  }
}

}  // namespace

void scent_flash_notes(const PartPlan& part, const PartTimes& times,
                       std::vector<core::Note>& notes) {
  for (const auto& scent : part.scents) {
    if (!scent.flash_celsius) continue;
    const double flash = *scent.flash_celsius, pot = times.batter_celsius;
    if (pot < flash - kFlashMargin) continue;
    notes.push_back(
        {core::Severity::danger,
         fmt::format(
             "{} has its flash point at {:.0f} C{}, and the batter of the {} is about {:.0f} "
             "C: {}. Let the batter cool below {:.0f} C before it goes in; no flame, no hot "
             "plate near.",
             scent.scent->name, flash,
             scent.flash_said ? "" : " (from memory: its safety data sheet decides)",
             part.part->name, pot,
             pot >= flash ? "its vapour can catch fire and the scent flies off"
                          : "gel or a warm corner brings it there",
             flash - kFlashMargin)});
  }
}

void lye_note(const PartPlan& part, const PartTimes& times, std::vector<core::Note>& notes) {
  if (!times.lye_lowered) return;
  notes.push_back({core::Severity::caution,
                   fmt::format("The lye of the {} is used at {:.0f} C, not warmer as planned: with "
                               "what is in it, it is not that warm, or must not be.",
                               part.part->name, times.lye_celsius)});
}

void add_time_notes(const BatchPlan& plan, BatchTimes& times) {
  bool topping = false;
  for (std::size_t i = 0; i < plan.parts.size(); ++i) {
    const auto& part = plan.parts[i];
    const auto& one = times.parts[i];
    topping = topping || part.part->size.has_value();
    solids_note(part, one, times.notes);
    scent_flash_notes(part, one, times.notes);
    lye_note(part, one, times.notes);
    const bool in_ice = core::made_in_ice(core::lye_order(part.recipe));
    if (!in_ice && (!one.lye_air_hours || *one.lye_air_hours > 4)) {
      times.notes.push_back(
          {core::Severity::note,
           fmt::format("Lye for the {} does not reach {:.0f} C on the bench in good time in a room "
                       "of {:.0f} C: use the cold bath.",
                       part.part->name, one.lye_celsius, times.room_celsius)});
    }
  }
  if (topping && times.gel.gel != core::Gel::no) {
    times.notes.push_back(
        {core::Severity::caution,
         fmt::format("The body {} (hottest about {:.0f} C, {:.0f} to {:.0f}; it turns to gel near "
                     "{:.0f} C): a gelling body slumps and cracks the topping. Pour cooler, leave "
                     "the moulds bare and apart, or put them in a cold place.",
                     times.gel.gel == core::Gel::yes ? "gels" : "may gel", times.gel.peak_celsius,
                     times.gel.peak_low, times.gel.peak_high, times.gel.gel_celsius)});
  }
  if (!topping && times.gel.gel == core::Gel::maybe) {
    times.notes.push_back({core::Severity::note,
                           "It may gel in the middle only, which leaves a darker ring: keep it "
                           "clearly warm (covered) or clearly cool (bare)."});
  }
}

void add_trade_checks(const BatchPlan& plan, BatchTimes& times) {
  for (std::size_t i = 0; i < plan.parts.size(); ++i) {
    const auto& part = plan.parts[i];
    const auto& one = times.parts[i];
    const std::string& name = part.part->name;
    const double f = core::fahrenheit(one.oils_celsius);
    const double lye_f = core::fahrenheit(one.lye_celsius);
    if (part.part->size) {
      const bool near = std::abs(f - 70) <= 3 && std::abs(lye_f - 60) <= 5;
      times.checks.push_back(
          {name + ": fats and lye", "fats near 70 F, lye near 60 F",
           "fats " + both(one.oils_celsius) + ", lye " + both(one.lye_celsius),
           near ? ""
           : part.part->method == Method::creamed_fats
               ? fmt::format(
                     "these fats whip between {:.0f} and {:.0f} C by their solid share; lye "
                     "much warmer than that melts them, colder is not needed",
                     one.firm_celsius, one.soft_celsius)
               : "a thick-trace topping is poured, not whipped: it must stay free of false trace"});
      if (part.part->method == Method::creamed_fats && near == false && one.solids_fit) {
        times.checks.back().why += "; at your temperatures it fits";
      }
    } else {
      const bool near = f >= 80 && f <= 90 && one.lye_celsius <= one.oils_celsius;
      times.checks.push_back(
          {name + ": oils and lye", "oils 80 to 90 F (27 to 32 C), lye cooler",
           "oils " + both(one.oils_celsius) + ", lye " + both(one.lye_celsius),
           near ? ""
                : fmt::format("this blend is free of false trace from {:.0f} C on as batter; yours "
                              "lands at {:.0f} C",
                              std::ceil(one.clear_celsius), one.batter_celsius)});
    }
    if (!part.part->size) {
      times.checks.push_back({name + ": out of the mould",
                              one.salt_bar ? "salt bars 1 to 5 h" : "about 24 h",
                              fmt::format("look from {:.0f} h", one.cut_hours),
                              one.salt_bar || std::abs(one.cut_hours - 24) <= 6
                                  ? ""
                                  : fmt::format("by how much of this blend's soap is set by then{}",
                                                one.cut_hours > 24 ? ": soft oils set slowly"
                                                                   : ": hard fats set fast")});
      times.checks.push_back(
          {name + ": cure", "about 4 weeks", fmt::format("{} weeks", one.cure_weeks),
           one.cure_weeks == 4
               ? ""
               : fmt::format("{:.0f} % of it is water when poured; drying and hardening are nearly "
                             "done then",
                             100 * one.water_at_cut)});
    }
    for (const auto& colour : part.colours) {
      for (const auto& line : colour.with) {
        if (line.known == nullptr || line.known->name != "mica" || colour.batter_grams <= 0)
          continue;
        const double per_kg = 1000 * line.grams / colour.batter_grams;
        times.checks.push_back(
            {"mica in " + colour.name,
             "half a teaspoon per pound of soap, about " + core::rate_span(2, 3) +
                 "; colour bleeds above it",
             core::rate_text(per_kg),
             per_kg <= 3 ? ""
                         : "it may bleed into foam and cloth; a teaspoon of mica weighs " +
                               core::grams_text(1) + " to " + core::grams_text(3.5) +
                               ": the weight decides"});
      }
    }
  }
  times.checks.push_back(
      {"soda ash", "spray the top with alcohol",
       plan.file.after.cover.value_or(false) ? "covered: less ash" : "bare: ash is likelier",
       "alcohol burns: no flame, no hot plate near, air; covering and warm soap "
       "keep ash off too"});
}

}  // namespace barwright::batch
