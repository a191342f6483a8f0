#include "solver/app/blend/text_blend.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/lye/lye_cautions.hpp"
#include "core/lye/lye_order.hpp"
#include "core/units/weight_text.hpp"
#include "solver/app/blend/blend_words.hpp"
#include "solver/app/blend/text_explain.hpp"
#include "solver/app/blend/text_manners.hpp"
#include "solver/app/blend/text_sureness.hpp"
#include "solver/formulate/claim.hpp"
#include "solver/recipe/recipe_request.hpp"
#include "solver/recipe/sizing.hpp"
#include "targets/model/words.hpp"

namespace barwright::app {
namespace {

void show_proof(Screen& screen, const jobs::BlendReport& report) {
  const formulate::Claim claim =
      formulate::claim_of(report.result.formulation, report.result.answer);
  const std::string better = formulate::better_words(claim);
  if (claim.proved) {
    screen.sentence(
        better.empty() ? "Found and checked: this blend keeps every wish and limit."
                       : fmt::format("Proved: no blend of {}, in these steps, keeps every wish and "
                                     "limit and is {}.",
                                     these_oils(report.manners), better));
  } else {
    screen.sentence("Keeps every wish and limit. " + unproved_words(report.result.answer));
    if (!claim.goal.empty()) {
      screen.sentence(fmt::format("'{}': {:.4g} {} here; beyond {:.4g} nothing is possible.",
                                  claim.goal, claim.value, claim.unit, claim.bound));
    }
  }
  const std::string bought = formulate::bought_words(claim);
  if (!bought.empty()) screen.sentence(bought);
}

void show_wishes(Screen& screen, const jobs::BlendReport& report) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& verdict : report.result.verdicts) {
    const auto& asked = report.result.formulation.asked[static_cast<std::size_t>(verdict.asked)];
    if (asked.place.file.empty()) continue;  // the house's own, such as little wax: no wish
    const double value = verdict.value * asked.per_unit;
    rows.push_back({asked.words,
                    asked.compared ? fmt::format("{} {}", signed_points(value), asked.unit)
                                   : in_unit(asked, value),
                    "kept" + sure_words(report, verdict)});
  }
  if (rows.empty()) return;
  const auto& level = report.job->brief.sureness;
  screen.heading("YOUR WISHES", level == targets::Sureness::typical ? "" : targets::words(level));
  screen.table("lrl", rows);
}

void show_cost(Screen& screen, const jobs::BlendReport& report) {
  const std::string& currency = report.job->candidates.currency;
  screen.heading("OIL COST");
  if (!report.cost) {
    screen.sentence("Not reckoned: an oil of this blend has no price in the shelf file.");
    return;
  }
  const auto& cost = *report.cost;
  std::vector<std::vector<std::string>> rows = {{"per kg of oils", money(cost.per_kg, currency)},
                                                {"this batch", money(cost.per_batch, currency)}};
  if (cost.per_bar) rows.push_back({"per bar", money(*cost.per_bar, currency)});
  if (cost.yardstick_per_bar) {
    rows.push_back({report.compared.name + ", per bar", money(*cost.yardstick_per_bar, currency)});
  }
  screen.table("lr", rows);
}

}  // namespace

std::string in_unit(const formulate::Asked& asked, double value) {
  return asked.unit.empty() ? fmt::format("{:.4g}", value)
                            : fmt::format("{:.4g} {}", value, asked.unit);
}

void show_comparison(Screen& screen, std::span<const jobs::PropertyLine> lines,
                     const std::string& yardstick) {
  screen.heading(fmt::format("AGAINST {}", yardstick), "points; the band holds 90 % of the doubt");
  std::vector<std::vector<std::string>> rows;
  std::string same;
  std::vector<std::string> leaning;
  for (const auto& line : lines) {
    const auto& words = targets::words(line.property);
    const auto& diff = line.against;
    const bool noticed = std::abs(diff.value) >= words.notice;
    if (!noticed && !line.wished) {
      if (line.property == targets::Property::titre) continue;
      same += (same.empty() ? "" : ", ") + std::string(targets::name(line.property));
      continue;
    }
    const char* verdict = diff.sure                                  ? "sure"
                          : diff.too_few_pours                       ? "too few pours to tell"
                          : diff.low < 0 && diff.high > 0 && noticed ? "a tie within the doubt"
                          : noticed                                  ? "likely"
                                                                     : "too little to notice";
    const std::string& side = diff.value >= 0 ? words.more : words.less;
    rows.push_back({side, signed_points(diff.value),
                    line.property == targets::Property::titre ? "C" : "", verdict,
                    fmt::format("({} to {})", signed_points(diff.low), signed_points(diff.high))});
    if (!line.leans.empty() && noticed) leaning.push_back(side + ": " + line.leans);
  }
  screen.table("lrlll", rows);
  if (!same.empty()) screen.sentence("No difference to notice in: " + same + ".");
  for (const auto& text : leaning) screen.sentence(text + ".", "-");
}

// As many decimals as it takes not to read 0 %. Beyond twice what the fat takes a figure says
// nothing more: "far too much".
std::string lye_left(double superfat) {
  if (superfat < -1) return "far too much";
  int decimals = 0;
  while (decimals < 6 && std::round(std::abs(superfat) * 100 * std::pow(10, decimals)) == 0)
    ++decimals;
  return percent(superfat, decimals);
}

std::string at_worst(double superfat, double worst) {
  const std::string least = percent(worst);
  return fmt::format("{}, {} at worst", percent(superfat),
                     worst < -1 || (worst < 0 && least == "0 %") ? lye_left(worst) : least);
}

std::string size_words(const targets::Brief& brief, const core::Recipe& recipe) {
  if (!brief.make) return core::round_grams(recipe.oils_grams) + " of oils";
  if (brief.make->bars) {
    const auto& bars = *brief.make->bars;
    const bool ounces = core::shown_units() == core::Units::ounces;
    return fmt::format(
        "{} bars of {}, weighed {}", bars.count,
        ounces ? core::round_grams(bars.each_grams) : fmt::format("{:.4g} g", bars.each_grams),
        bars.weighed == targets::Bars::Weighed::cured ? "cured" : "cut");
  }
  if (brief.make->oils_grams) return core::round_grams(recipe.oils_grams) + " of oils";
  int moulds = 0;
  for (const auto& mould : brief.make->moulds) moulds += mould.count;
  return fmt::format("{} {}", moulds, moulds == 1 ? "mould" : "moulds");
}

std::string strength_words(const core::Recipe& recipe) {
  std::string out = fmt::format("Lye of {}", percent(recipe.mixed_concentration));
  if (percent(recipe.mixed_concentration) != percent(recipe.lye_concentration)) {
    out += fmt::format(" as it is made, {} once all that brings water has joined",
                       percent(recipe.lye_concentration));
  }
  return out + (recipe.water_grams > 0 ? "." : "; no plain water: the liquids bring it all.");
}

std::string order_words(const core::Recipe& recipe) {
  return "Weigh the oils; then into the lye pot, in this order: " +
         core::lye_order_words(core::lye_order(recipe)) + ". Tick each line.";
}

void show_recipe(Screen& screen, const core::Recipe& recipe, const core::Scales& scales) {
  std::vector<std::vector<std::string>> rows;
  bool recalled = false;
  const auto left = [&](std::size_t i) -> std::string {
    if (i >= recipe.forgotten.size()) return "";
    const auto& one = recipe.forgotten[i];
    if (one.nothing_left) return "no fat left";
    if (one.superfat < 0) return lye_left(one.superfat) + " LYE LEFT OVER: do not use";
    if (one.lye_heavy) return at_worst(one.superfat, one.worst) + ": do not use";
    return fmt::format("{} superfat", percent(one.superfat, 0));
  };
  std::size_t line = 0;
  for (const auto* fats : {&recipe.oils, &recipe.other_fats}) {
    for (const auto& fat : *fats) {
      const bool weak = !fat.certified && fat.mark > core::Mark::computed;
      recalled = recalled || weak;
      rows.push_back({fat.name + (weak ? " *" : ""), percent(fat.share_of_oils, 1),
                      grams(fat.grams, scales.oils.step), left(line++)});
    }
  }
  rows.push_back({"oils together", "", grams(recipe.oils_grams, scales.oils.step), ""});
  screen.heading("THE BLEND", "weigh; beside each oil: what is left if it is forgotten");
  screen.table("lrrl", rows);
  if (recalled) {
    screen.sentence(
        "* the figure behind the lye was recalled, not read in print: before you pour, put your "
        "supplier's saponification value into the shelf.");
  }

  rows.clear();
  const auto order = core::lye_order(recipe);
  std::size_t alkali = 0;
  for (const auto& step : order) {
    std::string how = step.how;
    if (step.kind == core::LyeStep::Kind::alkali) {
      how += fmt::format("; reckoned as {} pure", percent(recipe.alkali[alkali++].purity));
    }
    const bool lye = step.kind == core::LyeStep::Kind::alkali;
    rows.push_back(
        {step.name,
         lye ? lye_grams(step.grams, scales.lye.step) : grams(step.grams, scales.lye.step), how});
  }
  for (const auto into : {core::Into::oils, core::Into::trace}) {
    for (const auto* lines : {&recipe.acids, &recipe.liquids, &recipe.additives}) {
      for (const auto& other : *lines) {
        if (other.into != into) continue;
        rows.push_back({other.name, grams(other.grams, scales.lye.step), core::word(into)});
      }
    }
  }
  screen.heading("THE LYE", "in this order; burns skin and eyes: goggles, gloves, sleeves");
  screen.table("lrl", rows);
  screen.sentence(strength_words(recipe));
  screen.sentence(fmt::format("Superfat {}; between {} and {} over lots and scale.",
                              percent(recipe.superfat), percent(recipe.band.low),
                              percent(recipe.band.high)));
  if (recipe.koh.moles > 0) {
    screen.sentence(
        fmt::format("Potassium hydroxide is {} of the alkali by molecules, {} by grams, "
                    "and makes {} of the fat into soap.",
                    percent(recipe.koh.moles), percent(recipe.koh.grams), percent(recipe.koh.fat)));
  }
  screen.sentence(fmt::format("In the pot: {}.", grams(recipe.total_grams, scales.oils.step)));
}

void show_notes(Screen& screen, const core::Recipe& recipe, const std::vector<std::string>& more) {
  screen.heading("LYE BURNS", "read before you weigh it");
  for (const auto& note : core::lye_cautions(recipe)) {
    if (note.severity == core::Severity::danger) {
      screen.danger(note.text);
    } else {
      screen.sentence(note.text, "-");
    }
  }
  if (recipe.notes.empty() && more.empty()) return;
  screen.heading("MIND");
  for (const auto& note : recipe.notes) {
    if (note.severity == core::Severity::danger) {
      screen.danger(note.text);
    } else {
      screen.sentence(note.text, "-");
    }
  }
  for (const auto& text : more) screen.sentence(text, "-");
}

std::string text_blend(const jobs::BlendReport& report, bool colour) {
  Screen screen(colour);
  const auto& brief = report.job->brief;
  const auto& result = report.result;
  if (!result.has_blend()) {
    screen.title(brief.name);
    screen.blank();
    show_no(screen, report);
    return screen.text();
  }
  screen.title(brief.name, size_words(brief, result.recipe));
  screen.blank();
  show_words(screen, cut_words(report.manners));
  show_proof(screen, report);
  show_let_in(screen, report.manners);
  show_words(screen, given_way_words(report.manners));
  show_recipe(screen, result.recipe, recipe::scales(brief.scale));
  show_comparison(screen, report.properties, report.compared.name);
  show_words(screen, stand_in_words(report.manners));
  show_wishes(screen, report);
  show_trial(screen, report);
  show_sureness(screen, report);
  show_prices(screen, report);
  show_manners(screen, report.manners);
  show_cost(screen, report);
  show_alternatives(screen, report);
  show_notes(screen, result.recipe, report.cautions);
  screen.heading("NEXT");
  screen.sentence(
      order_words(result.recipe) +
      " Make a small batch first and keep the bars on hold until they are tested. To keep this "
      "recipe: add --save my-bar.yaml.");
  return screen.text();
}

}  // namespace barwright::app
