#include "solver/batch/batch_rescue.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/lye/lye_strength.hpp"
#include "core/units/error.hpp"
#include "core/units/format.hpp"
#include "solver/batch/rescue_apply.hpp"
#include "solver/batch/rescue_mend.hpp"
#include "solver/recipe/recipe_request.hpp"

namespace barwright::batch {
namespace {

constexpr double kMostSuperfat = 0.15;  // beyond, a plain bar is too soft and spoils (lye engine)

std::string percent(double fraction) { return core::percent_text(fraction); }

/// Why the lye of this part would not dissolve or be clear; empty when it is.
std::string lye_trouble(const Damage& damage, std::vector<std::string>& say) {
  if (damage.state().lye_left_out) return {};
  const double now = dissolving_strength(damage.now, damage.state());
  const double before = dissolving_strength(damage.planned, damage.before());
  if (!(now > 0) || (!damage.now.alkali_moved && now <= before + 1e-9)) return {};
  const auto& plan = damage.plan();
  const auto& lye = plan.shared ? damage.now.shared : damage.state().lye;
  core::KohShares koh;
  double moles = 0;
  for (const auto& line : lye.alkali) {
    const double one = line.grams * line.strength.stated / core::molar_mass(line.alkali);
    moles += one;
    if (line.alkali == core::Alkali::potassium_hydroxide) koh.moles += one;
  }
  if (moles > 0) koh.moles /= moles;
  const core::LyeSettings settings =
      plan.shared ? plan.settings : recipe::lye_settings(damage.before().plan->lye);
  try {
    for (const auto& note : core::check_strength(settings, koh, now)) {
      if (note.severity == core::Severity::caution && now > before + 1e-9) {
        say.push_back(note.text);
      }
    }
  } catch (const core::Refusal& refusal) {
    return refusal.reason();
  }
  return {};
}

/// A scent that went over what its certificate allows in the finished bar; empty when none did.
std::string scent_over(const Damage& damage) {
  const auto& now = damage.state().lines.additions;
  const auto& before = damage.before().lines.additions;
  for (const auto& scent : damage.before().plan->scents) {
    for (std::size_t i = 0; i < before.size(); ++i) {
      if (before[i].name != scent.scent->name || !(before[i].grams > 0)) continue;
      const double times = now[i].grams / before[i].grams;
      for (const auto& portion : scent.portions) {
        const double in_bar =
            times * portion.in_bar / (1 - portion.in_bar + times * portion.in_bar);
        if (times > 1 && !scent.limit) {
          return fmt::format(
              "{} is then {} of the finished bar, and its certificate is not known: not for sale, "
              "hold it until its maker has been asked.",
              scent.scent->name, core::percent_text(in_bar, 2));
        }
        if (times > 1 && in_bar > *scent.limit) {
          return fmt::format(
              "{} is then {} of the finished bar, and its certificate allows {}: not for sale, "
              "hold "
              "it until its maker has been asked.",
              scent.scent->name, core::percent_text(in_bar, 2),
              core::percent_text(*scent.limit, 2));
        }
      }
    }
  }
  return {};
}

void say_safe(const Damage& damage, const std::string& now, PartRescue& out) {
  const bool same = std::abs(out.now.superfat - out.planned.superfat) < 1e-12 &&
                    std::abs(out.now.band.low - out.planned.band.low) < 1e-12;
  if (same) {
    out.say.push_back(fmt::format(
        "{}: {}.",
        damage.now.alkali_moved
            ? "Water changes how fast it sets and how long it cures, not how much lye is left over"
            : "It takes up no lye",
        now));
    return;
  }
  out.say.push_back(
      fmt::format("No free lye: {}; planned was {}.", now, percent(out.planned.superfat)));
  if (out.now.superfat < damage.goal.superfat - 0.005) {
    out.say.push_back("Less fat stays over than you planned: mend it if it is still liquid.");
    out.fixes = mend_with_fat(damage);
  } else if (out.now.superfat > damage.goal.superfat + 0.02) {
    out.say.push_back("It will be softer and keep less long.");
    out.fixes = mend_with_alkali(damage);
  }
}

void hold(PartRescue& out, const std::string& why) {
  out.verdict = RescueVerdict::hold;
  out.fixes.clear();  // nothing to reach for beside a 'hold'
  out.say.push_back(why);
}

PartRescue judge(const Damage& damage) {
  PartRescue out;
  out.part = damage.before().plan->part->name;
  out.planned = damage.before().plan->check;
  out.now = core::check_pot(damage.pot, damage.plan().scales);
  const double floor = damage.goal.never_below;
  const std::string now = out.now.nothing_left
                              ? "no fat is left to take up the lye"
                              : fmt::format("superfat is now {} ({} at worst)",
                                            percent(out.now.superfat), percent(out.now.band.low));
  if (const std::string trouble = lye_trouble(damage, out.say); !trouble.empty()) {
    out.say.push_back("NOT SAFE: " + trouble);
    const std::string past =
        "Never pour water onto it. Put the missing water into another pot and add the alkali or "
        "the strong lye to that, a little at a time. If it is in the oils already, hold it: "
        "grains of alkali do not spread.";
    out.fixes = mend_while_dry(damage);
    if (out.fixes.empty()) {
      hold(out, past);
    } else {
      out.verdict = RescueVerdict::mend;
      out.say.push_back("Past that: hold it. " + past);
    }
    return out;
  }
  if (core::meets(out.now, {0, floor}) && out.now.superfat <= kMostSuperfat) {
    say_safe(damage, now, out);
    if (const std::string scent = scent_over(damage); !scent.empty()) hold(out, scent);
    return out;
  }
  const bool too_fat = core::meets(out.now, {0, floor});
  if (out.now.lye_heavy()) {
    out.say.push_back(fmt::format("NOT SAFE: free lye{}, {}. It burns skin. Gloves and goggles on.",
                                  out.now.superfat < 0 ? "" : " at worst", now));
  } else if (too_fat) {
    out.say.push_back(
        fmt::format("Too much fat stays fat: {}. No free lye, but no good bar.", now));
  } else {
    out.say.push_back(
        fmt::format("NOT SURE TO BE SAFE: {}, below your floor of {}.", now, percent(floor)));
  }
  out.verdict = RescueVerdict::mend;
  out.fixes = too_fat ? mend_with_alkali(damage) : mend_with_fat(damage);
  if (const std::string scent = scent_over(damage); !scent.empty()) {
    hold(out, scent);
  } else if (out.fixes.empty()) {
    hold(out,
         "Hold it: nothing small enough to stir in evenly makes it good. Mark the pot, "
         "keep it closed and away from hands; your waste authority says where it goes.");
  } else {
    if (std::all_of(out.fixes.begin(), out.fixes.end(),
                    [](const RescueFix& fix) { return fix.liquid_only; })) {
      out.say.push_back("Past that: hold it, nothing else here makes it good.");
    }
    out.say.push_back("Mended or not, the batch stays on hold until every part of it is tested.");
  }
  return out;
}

}  // namespace

const char* word(RescueVerdict verdict) {
  switch (verdict) {
    case RescueVerdict::safe:
      return "safe";
    case RescueVerdict::mend:
      return "mend";
    case RescueVerdict::hold:
      return "hold";
  }
  return "";
}

RescueVerdict Rescue::verdict() const {
  RescueVerdict worst = RescueVerdict::safe;
  for (const auto& part : parts) worst = std::max(worst, part.verdict);
  return worst;
}

Rescue rescue(const BatchPlan& plan, std::span<const Slip> slips) {
  const BenchState planned = as_planned(plan);
  BenchState now = planned;
  Rescue out;
  for (const auto& slip : slips) {
    apply(now, slip);
    out.happened += (out.happened.empty() ? "" : "; and ") + happened(slip);
  }
  for (std::size_t i = 0; i < now.parts.size(); ++i) {
    const PartState& part = now.parts[i];
    if (!part.touched) continue;
    const core::LyeSettings settings = recipe::lye_settings(part.plan->lye);
    out.parts.push_back(
        judge({now, planned, i, pot_of(now, part), {settings.superfat, settings.never_below}}));
    if (slips.size() == 1 && slips[0].kind == Slip::Kind::instead &&
        find_fat(plan, planned.parts[i], slips[0].line)) {
      Slip other = slips[0];
      std::swap(other.line, other.other);
      BenchState turned = planned;
      apply(turned, other);
      out.other_way = core::check_pot(pot_of(turned, turned.parts[i]), plan.scales);
      out.other_way_words = happened(other);
    }
  }
  return out;
}

}  // namespace barwright::batch
