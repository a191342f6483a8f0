#include "solver/batch/rescue_mend.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/lye/lye_portion.hpp"
#include "core/units/format.hpp"

namespace barwright::batch {
namespace {

constexpr double kMostFix = 0.34;  // of the oils: more no longer fits pot or moulds, judgement

std::string both_ways(const std::string& what, bool liquid_only) {
  std::string out =
      fmt::format("Still liquid: stir in {} at once, all through, before it sets.", what);
  if (liquid_only) return out + " Once it sets this is too much to spread: hold it.";
  return out + fmt::format(
                   " Already set: rebatch the whole part, none of it missing: grate it with "
                   "gloves on, melt it slowly with a tenth of its weight of water, stir in the "
                   "same {}.",
                   what);
}

double most_fix(const Damage& damage) {
  const PartPlan& part = *damage.before().plan;
  return kMostFix * (part.recipe.oils_grams + part.wet_grams);
}

core::PotCheck check(const Damage& damage, const core::Pot& pot) {
  return core::check_pot(pot, damage.plan().scales);
}

/// Whether something stands in the pot that the sheet does not say, or more of it.
bool extra_fat(const Damage& damage) {
  const auto& now = damage.state().lines.fats;
  const auto& before = damage.before().lines.fats;
  if (now.size() > before.size()) return true;
  for (std::size_t i = 0; i < before.size(); ++i) {
    if (now[i].grams > before[i].grams) return true;
  }
  return false;
}

/// What was left out, put back, is the recipe again.
void put_back(const Damage& damage, std::vector<RescueFix>& fixes) {
  const auto& before = damage.before().lines;
  core::InPot lines = damage.state().lines;
  RescueFix fix;
  std::string text;
  const auto restore = [&](const auto& was, auto& is) {
    for (std::size_t i = 0; i < was.size(); ++i) {
      const double gone = was[i].grams - is[i].grams;
      if (!(gone > 0)) continue;
      if constexpr (requires { was[i].fat; }) {
        if (!(was[i].fat > 0) && !was[i].acid) continue;
        if (was[i].into == core::Into::lye) continue;  // not into a batter that holds lye
      }
      fix.what += (fix.what.empty() ? "" : " and ") + was[i].name;
      fix.grams += gone;
      text += (text.empty() ? "" : " and ") + core::grams_text(gone) + " of " + was[i].name;
      is[i].grams = was[i].grams;
    }
  };
  restore(before.fats, lines.fats);
  restore(before.acids, lines.acids);
  restore(before.additions, lines.additions);
  if (text.empty()) return;
  core::Pot pot = core::pot_of(lines, damage.before().plan->request.scales);
  pot.alkali = damage.pot.alkali;
  fix.after = check(damage, pot);
  fix.put_back = true;
  fix.liquid_only = fix.grams > most_fix(damage);
  fix.how = both_ways(text, fix.liquid_only);
  fixes.push_back(std::move(fix));
}

void offer(const Damage& damage, const core::PotFat& fat, std::vector<RescueFix>& fixes) {
  const auto enough = core::fat_to_add(damage.pot, fat, damage.goal, damage.plan().scales);
  if (!enough || !(*enough > 0)) return;
  for (const auto& fix : fixes) {
    if (fix.what == fat.name) return;
  }
  RescueFix fix;
  fix.what = fat.name;
  fix.grams = *enough;
  fix.how = both_ways(core::grams_text(*enough) + " of " + fat.name, false);
  fix.after = check(damage, core::with_fat(damage.pot, fat, *enough));
  fixes.push_back(std::move(fix));
}

/// Water and alkali of a shared pot that is still whole: topped up, and less of it weighed out.
void mend_in_the_pot(const Damage& damage, std::vector<RescueFix>& fixes) {
  const auto& now = damage.now.shared;
  const auto& before = damage.planned.shared;
  const double weight = std::max(now.sum(), before.weight);
  double pure = 0, pure_before = 0;
  for (const auto& line : now.alkali) pure += line.grams * line.strength.stated;
  for (const auto& line : before.alkali) pure_before += line.grams * line.strength.stated;
  const double strong = pure / weight, planned = pure_before / before.weight;
  if (!(strong > 0 && strong < 0.5)) return;
  const double portion = damage.state().portion;
  // Alkalis of two kinds by their moles: a gram of one is not a gram of the other.
  const double fewer =
      (core::moles_of(before.alkali) / before.weight) / (core::moles_of(now.alkali) / weight);
  const double grams = core::rounded_down(damage.before().portion * std::min(1.0, fewer),
                                          damage.plan().scales.lye.step);
  core::Pot pot = damage.pot;
  pot.alkali = core::portion_of(now.alkali, grams, weight, damage.plan().scales);
  RescueFix fix;
  fix.what = "lye";
  fix.liquid_only = true;
  fix.after = check(damage, pot);
  if (!core::meets(fix.after, {damage.goal.superfat - 5e-4, damage.goal.never_below})) return;
  const std::string top = weight > before.weight
                              ? fmt::format(
                                    "top it up to {} instead of {}; it is then {} strong "
                                    "instead of {}.",
                                    core::grams_text(weight), core::grams_text(before.weight),
                                    core::percent_text(strong), core::percent_text(planned))
                              : fmt::format(
                                    "top it up with water to {}, as planned; it is then {} "
                                    "strong.",
                                    core::grams_text(weight), core::percent_text(strong));
  fix.how = fmt::format(
      "Lye still in its pot: {} Weigh out {} for the {}{}. What stays in the pot is not for soap.",
      top, core::grams_text(grams), damage.state().plan->part->name,
      grams < portion ? " instead of " + core::grams_text(portion) : "");
  fixes.push_back(std::move(fix));
}

/// Too much alkali that has not met water yet.
void take_back_dry(const Damage& damage, std::vector<RescueFix>& fixes) {
  const bool shared = damage.plan().shared.has_value();
  const auto& now = shared ? damage.now.shared : damage.state().lye;
  const auto& before = shared ? damage.planned.shared : damage.before().lye;
  // More or less water as well: that is lye, or lye that would be too strong as it stands.
  if (std::abs(now.water - before.water) > 1e-9) return;
  auto back = now.alkali;
  std::string text;
  RescueFix fix;
  for (std::size_t i = 0; i < back.size(); ++i) {
    if (!(back[i].grams > before.alkali[i].grams)) continue;
    fix.what = core::name(back[i].alkali);
    text +=
        fmt::format("{}take {} of {} back out, until the scale shows {}", text.empty() ? "" : "; ",
                    core::grams_text(back[i].grams - before.alkali[i].grams), fix.what,
                    core::grams_text(before.alkali[i].grams));
    back[i].grams = before.alkali[i].grams;
  }
  if (text.empty()) return;
  core::Pot pot = damage.pot;
  pot.alkali = back;
  if (shared) {
    pot.alkali =
        core::portion_of(back, damage.state().portion, before.weight, damage.plan().scales);
  }
  fix.liquid_only = true;
  fix.after = check(damage, pot);
  fix.how = fmt::format(
      "Still dry, no water on it yet: {}. Once it has met water or oils this way is shut.", text);
  fixes.push_back(std::move(fix));
}

/// Too much lye of the part's own that has not met the oils yet.
void weigh_out_less(const Damage& damage, std::vector<RescueFix>& fixes) {
  const auto& now = damage.state();
  const auto& before = damage.before();
  if (damage.plan().shared || !(now.lye.water > before.lye.water + 1e-9) ||
      !(now.lye.alkali_grams() > before.lye.alkali_grams() + 1e-9)) {
    return;
  }
  const double less = core::rounded_down(lye_grams(before), damage.plan().scales.lye.step);
  core::InPot lines = now.lines;
  const double factor = less / lye_grams(now);
  core::Pot pot = damage.pot;
  for (auto& line : pot.alkali) line.grams *= factor;
  for (auto& addition : lines.additions) {
    if (core::in_lye(addition.into)) addition.grams *= factor;
  }
  const core::Pot others = core::pot_of(lines, before.plan->request.scales);
  pot.fats = others.fats;
  pot.acids = others.acids;
  RescueFix fix;
  fix.what = "lye";
  fix.liquid_only = true;
  fix.after = check(damage, pot);
  fix.how = fmt::format(
      "Lye not in the oils yet. Weigh out {} for the {} instead of {}. What is left of it is not "
      "for soap.",
      core::grams_text(less), before.plan->part->name, core::grams_text(lye_grams(now)));
  fixes.push_back(std::move(fix));
}

/// The whole lye left out, or its alkali: the lye of the sheet is what it needs.
bool whole_lye(const Damage& damage, std::vector<RescueFix>& fixes) {
  double in_pot = 0;
  for (const auto& line : damage.pot.alkali) in_pot += line.grams;
  if (in_pot > 0) return false;
  core::InPot lines = damage.state().lines;
  for (std::size_t i = 0; i < lines.additions.size(); ++i) {
    const auto& was = damage.before().lines.additions[i];
    if (core::in_lye(was.into)) lines.additions[i].grams = was.grams;
  }
  core::Pot pot = core::pot_of(lines, damage.before().plan->request.scales);
  pot.alkali = damage.before().plan->pot.alkali;
  RescueFix fix;
  fix.what = "lye";
  fix.put_back = true;
  fix.liquid_only = true;
  std::string text;
  for (const auto& line : pot.alkali) {
    fix.grams += line.grams;
    text += fmt::format("{}{} of {}", text.empty() ? "" : " and ", core::grams_text(line.grams),
                        core::name(line.alkali));
  }
  fix.after = check(damage, pot);
  fix.how = fmt::format(
      "Still liquid: stir in the lye of the sheet now, cool and clear, {} in it (alkali INTO "
      "water, "
      "never the reverse).",
      text);
  fixes.push_back(std::move(fix));
  return true;
}

void keep_what_is_good(const Damage& damage, std::vector<RescueFix>& fixes) {
  std::erase_if(fixes, [&](const RescueFix& fix) {
    return !core::meets(fix.after, {0, damage.goal.never_below}) ||
           (fix.grams > most_fix(damage) && !fix.put_back);
  });
}

}  // namespace

std::vector<RescueFix> mend_with_fat(const Damage& damage) {
  std::vector<RescueFix> fixes;
  const bool shared = damage.plan().shared.has_value();
  if (damage.now.alkali_moved && shared) mend_in_the_pot(damage, fixes);
  if (fixes.empty()) take_back_dry(damage, fixes);
  weigh_out_less(damage, fixes);
  if (!extra_fat(damage)) {
    put_back(damage, fixes);
  } else {
    // Something else stands in its place: all of it on top would leave far too much fat.
    const auto& before = damage.before().lines.fats;
    for (std::size_t i = 0; i < before.size(); ++i) {
      if (before[i].grams > damage.state().lines.fats[i].grams) offer(damage, before[i], fixes);
    }
  }
  const auto& fats = damage.before().lines.fats;
  offer(damage,
        *std::max_element(
            fats.begin(), fats.end(),
            [](const core::PotFat& a, const core::PotFat& b) { return a.grams < b.grams; }),
        fixes);
  keep_what_is_good(damage, fixes);
  return fixes;
}

std::vector<RescueFix> mend_while_dry(const Damage& damage) {
  std::vector<RescueFix> fixes;
  take_back_dry(damage, fixes);
  keep_what_is_good(damage, fixes);
  return fixes;
}

std::vector<RescueFix> mend_with_alkali(const Damage& damage) {
  std::vector<RescueFix> fixes;
  const auto& planned = damage.before().plan->pot.alkali;
  if (planned.empty()) return fixes;
  if (whole_lye(damage, fixes)) {
    keep_what_is_good(damage, fixes);
    return fixes;
  }
  // The alkali there is least of against the sheet; its own strength.
  std::size_t which = 0;
  double missing = 0;
  for (std::size_t i = 0; i < planned.size() && i < damage.pot.alkali.size(); ++i) {
    const double gone = planned[i].grams - damage.pot.alkali[i].grams;
    if (gone > missing) {
      missing = gone;
      which = i;
    }
  }
  const core::PotAlkali& alkali = damage.pot.alkali.at(which);
  const auto& scales = damage.plan().scales;
  const double grams = core::alkali_to_add(damage.pot, alkali, damage.goal, scales);
  if (!(grams > 0)) return fixes;
  RescueFix fix;
  fix.what = core::name(alkali.alkali);
  fix.grams = grams;
  const double strength = damage.plan().shared ? damage.plan().shared->concentration
                                               : damage.before().plan->recipe.lye_concentration;
  fix.water_grams =
      core::rounded(grams * alkali.strength.stated / strength - grams, scales.lye.step);
  fix.how = fmt::format(
      "Still liquid: dissolve {} of {} INTO {} of water, never the reverse; let it cool; stir it "
      "in. Once it is in the moulds leave it as it is: lye stirred into set soap does not spread.",
      core::grams_text(grams), fix.what, core::grams_text(fix.water_grams));
  fix.liquid_only = true;
  fix.after = check(damage, core::with_alkali(damage.pot, alkali, grams, scales));
  fixes.push_back(std::move(fix));
  keep_what_is_good(damage, fixes);
  return fixes;
}

}  // namespace barwright::batch
