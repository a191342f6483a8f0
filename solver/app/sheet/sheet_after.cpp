#include "solver/app/sheet/sheet_after.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/bench/mould.hpp"
#include "core/bench/release.hpp"
#include "core/bench/temperature.hpp"
#include "core/units/weight_text.hpp"
#include "oils/text/yaml_text.hpp"
#include "solver/app/print/screen.hpp"

namespace barwright::app {
namespace {

using batch::BatchPlan;
using batch::BatchTimes;
using batch::PartPlan;

std::string span_words(double hours) {
  if (hours < 1.95) return fmt::format("about {:.0f} min", 60 * hours);
  return fmt::format("about {:.1f} h", hours);
}

/// Batter into one mould, g: what embeds take up is shared out by volume.
double poured(const BatchPlan& plan, const PartPlan& part, double volume_ml) {
  double all = 0;
  for (const auto& log : plan.logs) all += log.count * log.volume_ml;
  const double free = all > 0 ? 1 - part.embed_ml / all : 1;
  return volume_ml * free * part.batter_density;
}

bool says(const PartPlan& part, std::string_view word) {
  return std::any_of(part.part->pour.begin(), part.part->pour.end(), [&](const std::string& step) {
    return oils::yaml::folded(step).find(word) != std::string::npos;
  });
}

/// What the maker's own words for the pour ask of the batter. Common practice, no source.
void look_lines(const BatchPlan& plan, const PartPlan& part, std::vector<std::string>& lines) {
  if (says(part, "layer")) {
    std::string heights;
    const bool one = plan.logs.size() == 1 && plan.logs[0].length_mm > 0;
    for (const auto& colour : part.colours) {
      if (!one) break;
      heights += fmt::format("{}{} {:.0f} mm", heights.empty() ? "" : ", ", colour.name,
                             colour.share * plan.logs[0].bar_height_mm);
    }
    lines.push_back(
        "Layers: medium trace, over the back of a spoon; the next when the last holds a "
        "drip" +
        (heights.empty() ? "." : "; by their shares, if each is one layer: " + heights + "."));
  }
  if (says(part, "in the pot")) {
    lines.push_back(
        "In the pot: light trace; pour the colours into the pot, one turn of a spatula, "
        "then straight into the mould: more stirring mixes them.");
  }
  if (says(part, "drop") || says(part, "from a height")) {
    lines.push_back(
        "Drop pour: the base at medium trace, what falls through it at light trace; high "
        "goes deep, low stays on top.");
  }
}

SheetText pour(const BatchPlan& plan, const PartPlan& part) {
  std::vector<std::string> lines;
  for (const auto& step : part.part->pour) lines.push_back(step + ".");
  look_lines(plan, part, lines);
  for (const auto& log : plan.logs) {
    const std::string each = core::round_grams(poured(plan, part, log.volume_ml));
    lines.push_back(log.length_mm > 0
                        ? fmt::format("{} x {}: fill to {:.0f} mm, {} each.", log.count, log.name,
                                      log.bar_height_mm, each)
                        : fmt::format("{} x {}: {} each.", log.count, log.name, each));
  }
  if (part.embed_ml > 0) {
    lines.push_back(
        fmt::format("The embeds take {:.0f} mL of the mould: so much less batter is "
                    "made. Have them at room warmth, set them in once the batter holds "
                    "them.",
                    part.embed_ml));
  }
  if (plan.file.samples) {
    lines.push_back(fmt::format("{} samples of {}: one to test, one to keep.",
                                plan.file.samples->count,
                                core::round_grams(plan.file.samples->each_grams)));
  }
  return {"Pour: " + part.part->name, lines};
}

SheetText top(const PartPlan& part, double topping_hours) {
  std::vector<std::string> lines;
  for (const auto& step : part.part->pour) lines.push_back(step + ".");
  lines.push_back(fmt::format(
      "When: {}; about {} after pouring.",
      part.part->when.empty() ? "body holds a fingertip mark and is below 35 C" : part.part->when,
      span_words(topping_hours).substr(6)));
  lines.push_back(fmt::format("{} per bar along the whole top; {} stays in the bag.",
                              core::round_grams(part.part->size->per_bar_grams),
                              percent(part.part->size->left_in_bag)));
  return {"Top: " + part.part->name, lines};
}

SheetText rest(const BatchTimes& times) {
  const auto& gel = times.gel;
  return {
      "Rest",
      {fmt::format("{}: hottest in the middle about {:.0f} C ({:.0f} to {:.0f}) after {:.1f} h; "
                   "this batter turns to gel near {:.0f} C.",
                   gel.gel == core::Gel::no    ? "No gel"
                   : gel.gel == core::Gel::yes ? "It gels"
                                               : "It may gel in the middle",
                   gel.peak_celsius, gel.peak_low, gel.peak_high, gel.peak_hours, gel.gel_celsius),
       times.covered ? "Covered." : "Leave it bare, moulds a hand's breadth apart.",
       gel.gel == core::Gel::yes || times.covered
           ? "Ash: unlikely on what is warm and covered; what comes wipes or steams off."
           : "Ash: a white bloom is likely on a bare, cool top in the first days. It is looks "
             "only; "
             "a sheet laid over the mould for a day keeps most of it off, steam takes it away."}};
}

SheetText cut(const BatchPlan& plan, const BatchTimes& times) {
  std::vector<std::string> lines;
  double firm = 0;
  bool salt_bar = false;
  for (std::size_t i = 0; i < plan.parts.size(); ++i) {
    if (plan.parts[i].part->size) continue;
    firm = times.parts[i].cut_hours;
    salt_bar = times.parts[i].salt_bar;
  }
  if (salt_bar) {
    lines.push_back(
        plan.file.cut
            ? fmt::format(
                  "Salt bar: look from {:.0f} h, cut while warm, at the latest after {:.0f} h.",
                  batch::kSaltBarCut - 1, batch::kSaltBarCrumbles)
            : "Salt bar: out of the single moulds when hard and cold, the same day or the next.");
  }
  if (!salt_bar)
    lines.push_back(fmt::format(
        "By this blend firm enough from about {:.0f} h{}.", firm,
        plan.file.after.unmould.empty() ? "" : " (your plan: " + plan.file.after.unmould + ")"));
  lines.push_back("Gloves: fresh soap is still caustic. Cut one end, look, then the rest.");
  for (const auto& log : plan.logs) {
    if (!log.cut || !plan.file.cut) continue;
    std::string marks;
    for (const double at : log.cut->cuts_mm)
      marks += fmt::format("{}{:g}", marks.empty() ? "" : ", ", at);
    lines.push_back(
        fmt::format("{}: {} bars of {:g} mm. Blade at {} mm from one end; {:g} mm left.", log.name,
                    log.cut->bars, plan.file.cut->slice, marks, log.cut->left_over_mm));
  }
  if (plan.trim_grams > 1) {
    lines.push_back(fmt::format("Trims and kerf take about {} of the body.",
                                core::round_grams(plan.trim_grams)));
  }
  // Common practice, no source.
  if (plan.file.after.stamp) {
    lines.push_back(
        salt_bar ? "Stamp at once after the cut: a salt bar breaks later."
                 : fmt::format("Stamp from about {:.0f} h after pouring, once a finger leaves "
                               "no print and the cut face is dry to the touch; within 3 days.",
                               firm + 12));
  }
  if (plan.file.after.bevel) {
    lines.push_back(salt_bar
                        ? "Bevel with a damp cloth the same day: a blade chips it."
                        : "Bevel after 3 to 10 days: the shaving comes off in one curl; gloves.");
  }
  return {"Cut", lines};
}

SheetText cure(const BatchPlan& plan, const BatchTimes& times) {
  std::vector<std::string> lines;
  int weeks = 0;
  for (const auto& part : times.parts) weeks = std::max(weeks, part.cure_weeks);
  lines.push_back(
      fmt::format("By this blend {} weeks{}.", weeks,
                  plan.file.after.cure_hours
                      ? fmt::format(" (your plan: {:g} weeks)", *plan.file.after.cure_hours / 168)
                      : ""));
  if (plan.file.bench_date) {
    const auto made = core::find_day(plan.file.bench_date->text());
    if (made) {
      lines.push_back("Not before " +
                      core::text(core::ready_day(*made, batch::cure_hours(plan, times))) + ".");
    }
  }
  lines.push_back("On racks, airy, dark, apart.");
  return {"Cure", lines};
}

SheetText test(const BatchPlan& plan) {
  const auto& after = plan.file.after;
  return {
      "Test, then release",
      {fmt::format("Keep all bars on hold. Test {}{}: look for crystals, weeping, a zap or high "
                   "pH in each part and colour; a bar that fails is not sold.",
                   after.release_test.empty() ? "every part" : after.release_test,
                   after.release_before.empty() ? "" : " before " + after.release_before),
       "Selling: the law of your country on cosmetics and labels decides, not this sheet."}};
}

}  // namespace

std::vector<SheetText> after_pour(const BatchPlan& plan, const BatchTimes& times) {
  std::vector<SheetText> out;
  for (const auto& part : plan.parts) {
    out.push_back(part.part->size ? top(part, times.topping_hours) : pour(plan, part));
  }
  out.push_back(rest(times));
  out.push_back(cut(plan, times));
  out.push_back(cure(plan, times));
  out.push_back(test(plan));
  return out;
}

}  // namespace barwright::app
