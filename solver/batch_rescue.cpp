#include "solver/batch_rescue.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/format.hpp"
#include "core/quantity.hpp"
#include "oils/library.hpp"
#include "solver/recipe_request.hpp"

namespace barwright::solver {
namespace {

constexpr double kMostSuperfat = 0.15;  // beyond, a plain bar is too soft and spoils (lye engine)
constexpr double kMostFix = 0.34;       // of the oils: more no longer fits pot or moulds, judgement

bool is_alkali(const std::string& name, core::Alkali& alkali) {
  const std::string folded = oils::folded_name(name);
  if (folded == "naoh" || folded == "sodium hydroxide" || folded == "caustic soda" ||
      folded == "lye" || folded == "alkali") {
    alkali = core::Alkali::sodium_hydroxide;
    return true;
  }
  if (folded == "koh" || folded == "potassium hydroxide" || folded == "caustic potash") {
    alkali = core::Alkali::potassium_hydroxide;
    return true;
  }
  return false;
}

bool same(const BatchPlan& plan, const std::string& written, const std::string& line) {
  if (oils::folded_name(written) == oils::folded_name(line)) return true;
  const oils::Oil* oil = plan.library.find(written);
  return oil != nullptr && oil->name == line;
}

std::optional<std::size_t> fat_of(const BatchPlan& plan, const PartPlan& part,
                                  const std::string& name) {
  for (std::size_t i = 0; i < part.pot.fats.size(); ++i) {
    if (same(plan, name, part.pot.fats[i].name)) return i;
  }
  return std::nullopt;
}

std::optional<std::size_t> acid_of(const PartPlan& part, const std::string& name) {
  for (std::size_t i = 0; i < part.pot.acids.size(); ++i) {
    if (oils::folded_name(part.pot.acids[i].name) == oils::folded_name(name)) return i;
  }
  return std::nullopt;
}

/// Whether the part has the line as something the lye does not care for.
bool harmless(const PartPlan& part, const std::string& name) {
  const auto is = [&](const std::string& each) {
    return oils::folded_name(each) == oils::folded_name(name);
  };
  for (const auto* list : {&part.into_lye, &part.additions, &part.on_top}) {
    for (const auto& line : *list) {
      if (is(line.name)) return true;
    }
  }
  for (const auto& colour : part.colours) {
    for (const auto& line : colour.with) {
      if (is(line.name)) return true;
    }
  }
  return std::any_of(part.scents.begin(), part.scents.end(),
                     [&](const ScentPlan& scent) { return is(scent.scent->name); });
}

std::vector<const PartPlan*> parts_of(const BatchPlan& plan, const Slip& slip) {
  core::Alkali alkali{};
  const bool any = is_alkali(slip.line, alkali) || oils::folded_name(slip.line) == "water";
  std::vector<const PartPlan*> found;
  for (const auto& part : plan.parts) {
    if (!slip.part.empty() && oils::folded_name(slip.part) != oils::folded_name(part.part->name)) {
      continue;
    }
    const bool has = any || fat_of(plan, part, slip.line) || acid_of(part, slip.line) ||
                     harmless(part, slip.line) ||
                     (slip.kind == Slip::Kind::instead && fat_of(plan, part, slip.other));
    if (has) found.push_back(&part);
  }
  if (found.empty()) {
    std::string known;
    for (const auto& part : plan.parts) {
      known += (known.empty() ? "" : "; ") + part.part->name + ": ";
      for (std::size_t i = 0; i < part.pot.fats.size(); ++i) {
        known += (i == 0 ? "" : ", ") + part.pot.fats[i].name;
      }
    }
    throw SlipError{
        fmt::format("'{}' is in no part{}. The batch has: {}; NaOH, water and what is "
                    "added.",
                    slip.line, slip.part.empty() ? "" : " called '" + slip.part + "'", known)};
  }
  // One pot of lye: a slip there reaches every part it serves.
  if (found.size() > 1 && !(any && plan.shared && slip.part.empty())) {
    throw SlipError{fmt::format("'{}' is in {} and {}: say which with --part.", slip.line,
                                found[0]->part->name, found[1]->part->name)};
  }
  return found;
}

core::RescueGoal goal_of(const PartPlan& part) {
  const core::LyeSettings settings = lye_settings(part.lye);
  return {settings.superfat, settings.never_below};
}

std::string percent(double fraction) { return core::percent_text(fraction); }

/// The pot after the slip. `share`: what part of a shared pot's slip reaches this part.
core::Pot slipped(const BatchPlan& plan, const PartPlan& part, const Slip& slip, double share) {
  core::Pot pot = part.pot;
  core::Alkali alkali{};
  const bool lye = is_alkali(slip.line, alkali);
  const auto fat = fat_of(plan, part, slip.line);
  const auto acid = acid_of(part, slip.line);
  double change = 0;
  switch (slip.kind) {
    case Slip::Kind::forgotten:
      if (lye) {
        for (auto& line : pot.alkali) {
          if (line.alkali == alkali) line.grams = 0;
        }
      }
      if (fat) pot.fats[*fat].grams = 0;
      if (acid) pot.acids[*acid].grams = 0;
      return pot;
    case Slip::Kind::too_much:
      change = slip.grams;
      break;
    case Slip::Kind::too_little:
      change = -slip.grams;
      break;
    case Slip::Kind::instead: {
      const auto there = fat_of(plan, part, slip.other);
      const double grams = pot.fats[*there].grams;
      pot.fats[*there].grams = 0;
      if (fat) {
        pot.fats[*fat].grams += grams;
      } else {
        const oils::Oil& oil = *plan.library.find(slip.line);
        pot.fats.push_back(pot_fat({&oil, grams, false}));
      }
      return pot;
    }
    case Slip::Kind::exchanged: {
      const auto there = fat_of(plan, part, slip.other);
      std::swap(pot.fats[*fat].grams, pot.fats[*there].grams);
      return pot;
    }
  }
  const auto move = [&](double& grams, double by) { grams = std::max(0.0, grams + by); };
  if (lye) {
    bool found = false;
    for (auto& line : pot.alkali) {
      if (line.alkali != alkali) continue;
      move(line.grams, change * share);
      found = true;
    }
    if (!found) throw SlipError{std::string("This batch has no ") + core::name(alkali) + "."};
  }
  if (fat) move(pot.fats[*fat].grams, change);
  if (acid) move(pot.acids[*acid].grams, change);
  return pot;
}

std::string both_ways(double grams, const std::string& what) {
  return fmt::format(
      "Still liquid: stir in {} of {} at once, all through, before it sets. Already "
      "set: rebatch the whole part, none of it missing: grate it with gloves on, melt "
      "it slowly with a tenth of its weight of water, stir in the same {}.",
      core::grams_text(grams), what, core::grams_text(grams));
}

void offer(PartRescue& out, const core::Pot& pot, const core::PotFat& fat, double grams,
           const core::Scales& scales) {
  RescueFix fix;
  fix.what = fat.name;
  fix.grams = grams;
  fix.how = both_ways(grams, fat.name);
  fix.after = core::check_pot(core::with_fat(pot, fat, grams), scales);
  out.fixes.push_back(std::move(fix));
}

void mend_with_fat(const PartPlan& part, const core::Pot& pot, const Slip& slip,
                   const BatchPlan& plan, PartRescue& out) {
  const auto goal = goal_of(part);
  const auto missing = slip.kind == Slip::Kind::instead ? fat_of(plan, part, slip.other)
                                                        : fat_of(plan, part, slip.line);
  const auto good = [&](const core::PotFat& fat, double grams) {
    return core::meets(core::check_pot(core::with_fat(pot, fat, grams), plan.scales),
                       {0, goal.never_below});
  };
  if (missing) {
    const auto& fat = part.pot.fats[*missing];
    const double gone = fat.grams - (*missing < pot.fats.size() ? pot.fats[*missing].grams : 0);
    // What was left out, put back, is the recipe again.
    if (slip.kind != Slip::Kind::instead) {
      if (gone > 0 && good(fat, gone)) offer(out, pot, fat, gone, plan.scales);
    } else if (const auto enough = core::fat_to_add(pot, fat, goal, plan.scales);
               enough && *enough > 0) {
      // Something else stands in its place: all of it on top would leave far too much fat.
      offer(out, pot, fat, *enough, plan.scales);
    }
  }
  const auto largest = std::max_element(
      part.pot.fats.begin(), part.pot.fats.end(),
      [](const core::PotFat& a, const core::PotFat& b) { return a.grams < b.grams; });
  const auto least = core::fat_to_add(pot, *largest, goal, plan.scales);
  const bool offered = !out.fixes.empty() && out.fixes.front().what == largest->name;
  if (least && *least > 0 && !offered) offer(out, pot, *largest, *least, plan.scales);
}

void mend_with_alkali(const PartPlan& part, const core::Pot& pot, const BatchPlan& plan,
                      PartRescue& out) {
  if (pot.alkali.empty()) return;
  core::PotAlkali alkali = part.pot.alkali.front();
  const double grams = core::alkali_to_add(pot, alkali, goal_of(part), plan.scales);
  if (!(grams > 0)) return;
  RescueFix fix;
  fix.what = core::name(alkali.alkali);
  fix.grams = grams;
  const double strength = plan.shared ? plan.shared->concentration : part.recipe.lye_concentration;
  fix.water_grams =
      core::rounded(grams * alkali.strength.stated / strength - grams, plan.scales.lye.step);
  fix.how = fmt::format(
      "Still liquid: dissolve {} of {} INTO {} of water, never the reverse; let it cool; stir it "
      "in. "
      "Once it is in the moulds leave it as it is: lye stirred into set soap does not spread.",
      core::grams_text(grams), fix.what, core::grams_text(fix.water_grams));
  fix.liquid_only = true;
  fix.after = core::check_pot(core::with_alkali(pot, alkali, grams, plan.scales), plan.scales);
  out.fixes.push_back(std::move(fix));
}

/// A shared pot that is still whole: weigh out less of a stronger lye.
void mend_in_the_pot(const PartPlan& part, const BatchPlan& plan, const Slip& slip,
                     PartRescue& out) {
  if (!plan.shared || !part.portion) return;
  const auto& lye = *plan.shared;
  double alkali = 0, pure = 0;
  for (const auto& line : lye.alkali) {
    alkali += line.grams;
    pure += line.pure_grams();
  }
  const double change = slip.kind == Slip::Kind::too_much ? slip.grams : -slip.grams;
  const double before = pure / lye.making_weight;
  const double after =
      (pure + change * lye.alkali.front().purity) / (alkali + change + lye.water_grams);
  if (!(after > 0 && after < 0.5)) return;
  const double grams =
      core::rounded_down(part.portion->solution_grams * before / after, plan.scales.lye.step);
  RescueFix fix;
  fix.what = "lye";
  fix.grams = 0;
  fix.liquid_only = true;
  core::Pot pot = part.pot;
  for (auto& line : pot.alkali) {
    line.grams *= grams * after / (part.portion->solution_grams * before);
  }
  fix.after = core::check_pot(pot, plan.scales);
  if (!core::meets(fix.after, {goal_of(part).superfat - 5e-4, goal_of(part).never_below})) return;
  fix.how = fmt::format(
      "Lye still in its pot: top it up to {} instead of {}; it is then {} strong instead of {}. "
      "Weigh out {} for the {} instead of {}. What stays in the pot is not for soap.",
      core::grams_text(lye.making_weight + change), core::grams_text(lye.making_weight),
      percent(after), percent(before), core::grams_text(grams), part.part->name,
      core::grams_text(part.portion->solution_grams));
  out.fixes.insert(out.fixes.begin(), std::move(fix));
}

PartRescue rescue_part(const BatchPlan& plan, const PartPlan& part, const Slip& slip,
                       double share) {
  PartRescue out;
  out.part = part.part->name;
  out.planned = part.check;
  const core::Pot pot = slipped(plan, part, slip, share);
  out.now = core::check_pot(pot, plan.scales);
  const auto goal = goal_of(part);
  const std::string now = out.now.nothing_left
                              ? "no fat is left to take up the lye"
                              : fmt::format("superfat is now {} ({} at worst)",
                                            percent(out.now.superfat), percent(out.now.band.low));
  core::Alkali alkali{};
  const bool lye = is_alkali(slip.line, alkali);
  if (oils::folded_name(slip.line) == "water") {
    out.verdict = slip.kind == Slip::Kind::forgotten ? RescueVerdict::hold : RescueVerdict::safe;
    out.say.push_back(
        out.verdict == RescueVerdict::hold
            ? "Dry alkali without its water: never pour water onto it. Put water into another pot "
              "and "
              "add the alkali to that, a little at a time. If it is in the oils already, hold it: "
              "grains of alkali do not spread."
            : "Water changes how fast it sets and how long it cures, not how much lye is left "
              "over.");
    return out;
  }
  const bool touches = lye || fat_of(plan, part, slip.line) || acid_of(part, slip.line) ||
                       slip.kind == Slip::Kind::instead;
  if (!touches) {
    out.verdict = RescueVerdict::safe;
    out.say.push_back(fmt::format("{} takes up no lye: {}.", slip.line, now));
    for (const auto& scent : part.scents) {
      if (slip.kind == Slip::Kind::too_much &&
          oils::folded_name(scent.scent->name) == oils::folded_name(slip.line)) {
        out.verdict = RescueVerdict::hold;
        out.say.push_back(
            "But a scent over its certificate's limit is not for sale: hold it until "
            "the certificate has been asked.");
      }
    }
    return out;
  }
  if (core::meets(out.now, {0, goal.never_below}) && out.now.superfat <= kMostSuperfat) {
    out.verdict = RescueVerdict::safe;
    out.say.push_back(
        fmt::format("No free lye: {}; planned was {}.", now, percent(out.planned.superfat)));
    if (out.now.superfat < goal.superfat - 0.005) {
      out.say.push_back("Less fat stays over than you planned: mend it if it is still liquid.");
      mend_with_fat(part, pot, slip, plan, out);
    }
    if (out.now.superfat > goal.superfat + 0.02) {
      out.say.push_back("It will be softer and keep less long.");
      mend_with_alkali(part, pot, plan, out);
    }
    return out;
  }
  out.verdict = RescueVerdict::mend;
  if (out.now.lye_heavy()) {
    out.say.push_back(
        fmt::format("NOT SAFE: free lye, {}. It burns skin. Gloves and goggles on.", now));
  } else if (out.now.superfat > kMostSuperfat) {
    out.say.push_back(
        fmt::format("Too much fat stays fat: {}. No free lye, but no good bar.", now));
  } else {
    out.say.push_back(fmt::format("NOT SURE TO BE SAFE: {}, below your floor of {}.", now,
                                  percent(goal.never_below)));
  }
  if (out.now.superfat > kMostSuperfat && !out.now.nothing_left) {
    mend_with_alkali(part, pot, plan, out);
  } else {
    if (const auto acid = acid_of(part, slip.line); acid && slip.kind == Slip::Kind::forgotten) {
      RescueFix fix;
      fix.what = part.pot.acids[*acid].name;
      fix.grams = part.pot.acids[*acid].grams;
      fix.how = both_ways(fix.grams, fix.what);
      fix.after = part.check;
      out.fixes.push_back(std::move(fix));
    }
    mend_with_fat(part, pot, slip, plan, out);
  }
  if (lye && slip.kind != Slip::Kind::forgotten) mend_in_the_pot(part, plan, slip, out);
  std::erase_if(out.fixes, [&](const RescueFix& fix) {
    return fix.after.band.low < goal.never_below || fix.after.nothing_left;
  });
  const double oils = part.recipe.oils_grams + part.wet_grams;
  const bool small = std::any_of(out.fixes.begin(), out.fixes.end(), [&](const RescueFix& fix) {
    return fix.grams <= kMostFix * oils || same(plan, slip.line, fix.what);
  });
  if (!small) {
    out.verdict = RescueVerdict::hold;
    out.say.push_back(
        "Hold it: nothing small enough to stir in evenly makes it good. Mark the pot, "
        "keep it closed and away from hands; your waste authority says where it goes.");
  } else {
    out.say.push_back("Mended or not, the batch stays on hold until every part of it is tested.");
  }
  return out;
}

std::string happened(const Slip& slip) {
  switch (slip.kind) {
    case Slip::Kind::forgotten:
      return slip.line + " was forgotten";
    case Slip::Kind::too_much:
      return core::grams_text(slip.grams) + " too much " + slip.line;
    case Slip::Kind::too_little:
      return core::grams_text(slip.grams) + " too little " + slip.line;
    case Slip::Kind::instead:
      return slip.line + " went in where " + slip.other + " belongs, by its weight";
    case Slip::Kind::exchanged:
      return slip.line + " and " + slip.other + " went in with each other's weights";
  }
  return {};
}

Slip with_grams(Slip::Kind kind, const std::string& words) {
  // The weight stands at the end: "NaOH 20 g".
  const std::size_t digit = words.find_first_of("0123456789");
  const std::size_t end = digit == std::string::npos ? 0 : words.find_last_not_of(' ', digit - 1);
  if (digit == std::string::npos || digit == 0 || end == std::string::npos) {
    throw SlipError{"'" + words + "': write what and how much, such as \"NaOH 20 g\"."};
  }
  Slip slip;
  slip.kind = kind;
  slip.line = words.substr(0, end + 1);
  try {
    slip.grams = core::to_grams(core::parse_quantity(words.substr(digit)));
  } catch (const core::UnitError& error) {
    throw SlipError{fmt::format("'{}': {}. {}", words, error.what(), error.remedy())};
  }
  if (!(slip.grams > 0)) throw SlipError{"'" + words + "': the weight must be above zero."};
  return slip;
}

}  // namespace

Slip forgotten(const std::string& words) {
  if (words.find_first_not_of(' ') == std::string::npos) {
    throw SlipError{"Say what was forgotten, such as --forgot \"castor\"."};
  }
  Slip slip;
  slip.line = words;
  return slip;
}
Slip too_much(const std::string& words) { return with_grams(Slip::Kind::too_much, words); }
Slip too_little(const std::string& words) { return with_grams(Slip::Kind::too_little, words); }

Slip swapped(const std::string& words) {
  Slip slip;
  for (const auto& [between, kind] :
       {std::pair<std::string_view, Slip::Kind>{" for ", Slip::Kind::instead},
        {" and ", Slip::Kind::exchanged}}) {
    const std::size_t at = words.find(between);
    if (at == std::string::npos || at == 0) continue;
    slip.kind = kind;
    slip.line = words.substr(0, at);
    slip.other = words.substr(at + between.size());
    if (!slip.other.empty()) return slip;
  }
  throw SlipError{
      "'" + words +
      "': write \"olive for coconut\" (olive went in where coconut belongs), or \"olive "
      "and coconut\" (each with the other's weight)."};
}

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

Rescue rescue(const BatchPlan& plan, const Slip& slip) {
  Rescue out;
  out.happened = happened(slip);
  Slip asked = slip;
  if (slip.kind == Slip::Kind::instead || slip.kind == Slip::Kind::exchanged) {
    asked.line = slip.kind == Slip::Kind::instead ? slip.other : slip.line;  // must be in a part
    asked.kind = Slip::Kind::forgotten;
  }
  const auto parts = parts_of(plan, asked);
  double all = 0;
  for (const auto& part : plan.parts) {
    for (const auto& line : part.pot.alkali) all += line.grams;
  }
  for (const PartPlan* part : parts) {
    if (slip.kind == Slip::Kind::exchanged && !fat_of(plan, *part, slip.other)) {
      throw SlipError{fmt::format("'{}' is not in the {}.", slip.other, part->part->name)};
    }
    if (slip.kind == Slip::Kind::instead &&
        (!fat_of(plan, *part, slip.other) || !plan.library.find(slip.line))) {
      throw SlipError{fmt::format("'{}' is no oil known here.", slip.line)};
    }
    double mine = 0;
    for (const auto& line : part->pot.alkali) mine += line.grams;
    const double share = plan.shared && slip.part.empty() ? mine / all : 1;
    out.parts.push_back(rescue_part(plan, *part, slip, share));
    if (slip.kind == Slip::Kind::instead && fat_of(plan, *part, slip.line)) {
      Slip other = slip;
      std::swap(other.line, other.other);
      out.other_way = core::check_pot(slipped(plan, *part, other, 1), plan.scales);
      out.other_way_words = happened(other);
    }
  }
  return out;
}

}  // namespace barwright::solver
