#include "core/lye/lye_checks.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/units/error.hpp"
#include "core/units/format.hpp"

namespace barwright::core::lye_parts {

namespace {

// mg KOH/g: a triglyceride or acid as heavy as C24 has 153 (computed), waxes go down to about 43
// (candelilla, recalled).
constexpr double kLeastValue = 150;
constexpr double kLeastWaxValue = 30;
constexpr double kMostValue = 600;   // above any fat: tributyrin is 557 (computed)
constexpr double kCapSlack = 0.001;  // room for rounding to the scales when a cap is advised

/// Returns the largest share of all fats (whole per cent, as a fraction) below its own that fat `i`
/// may have, the others growing in its place, for the worst case to hold; 0 when none will do.
double cap_of(std::span<const PotFat> fats, std::size_t i, const LyeSettings& settings,
              const Scales& scales, const PotCheck& verdict) {
  double other_grams = 0, other_typical = 0, other_low = 0, error = 0;
  for (std::size_t j = 0; j < fats.size(); ++j) {
    const Span span = judged_span(fats[j]);
    error += moles_for(error_of(fats[j], scales), span.low);
    if (j == i) continue;
    other_grams += fats[j].grams;
    other_typical += moles_for(fats[j].grams, span.typical);
    other_low += moles_for(fats[j].grams, span.low);
  }
  if (!(other_grams > 0)) return 0;
  const Span span = judged_span(fats[i]);
  const double total = other_grams + fats[i].grams;
  // Most alkali per mole of typical need: strength, scale error and short acid included.
  const double most = verdict.most_moles / verdict.need_moles;
  const double has = 100 * fats[i].grams / total;
  for (int percent = static_cast<int>(std::ceil(has)) - 1; percent >= 1; --percent) {
    const double grams = total * percent / 100;
    const double rest = (total - grams) / other_grams;
    const double typical = moles_for(grams, span.typical) + rest * other_typical;
    const double low = moles_for(grams, span.low) + rest * other_low - error;
    if (1 - most * typical / low >= settings.never_below + kCapSlack) return percent / 100.0;
  }
  return 0;
}

}  // namespace

std::string listed(std::span<const std::string> names) {
  std::string out;
  for (auto name = names.begin(); name != names.end(); ++name) {
    if (std::find(names.begin(), name, *name) != name) continue;
    out += (out.empty() ? "" : ", ") + *name;
  }
  return out;
}

void check_fat(const PotFat& fat) {
  const Span& span = fat.saponification_value;
  if (!(fat.grams >= 0) || !std::isfinite(fat.grams)) {
    throw Refusal("The weight of '" + fat.name + "' is not a weight.", "Give it in grams.");
  }
  if (!std::isfinite(span.low) || !std::isfinite(span.high) ||
      !(span.low <= span.typical && span.typical <= span.high)) {
    throw Refusal("The saponification value of '" + fat.name +
                      "' is not a range with its typical value inside it.",
                  "Give low, typical and high in mg KOH per g, in that order.");
  }
  if (!(fat.unsaponifiable >= 0 && fat.unsaponifiable <= 1)) {
    throw Refusal("The unsaponifiable share of '" + fat.name + "' is not a percentage.",
                  "Give it between 0 and 100 %.");
  }
  const double least =
      fat.form == FatForm::wax ? kLeastWaxValue : kLeastValue * (1 - fat.unsaponifiable);
  if (span.low < least || span.high > kMostValue) {
    throw Refusal(
        "The saponification value of '" + fat.name + "', " + fixed(span.low, 3) + " to " +
            fixed(span.high, 3) + ", cannot be mg KOH per g of a fat.",
        "Give milligrams of potassium hydroxide per gram, near 190 for most oils; figures "
        "like 0.135 or 135 are sodium hydroxide and belong to another sum.");
  }
}

void check_waxes(std::span<const PotFat> fats) {
  double all = 0, wax = 0;
  std::vector<std::string> names;
  for (const auto& fat : fats) {
    all += fat.grams;
    if (!saponifies_in_part(fat)) continue;
    wax += fat.grams;
    names.push_back(fat.name);
  }
  if (wax <= (kMostWaxShare + 1e-9) * all) return;
  throw Refusal("Wax and its like (" + listed(names) + ") is " + percent_text(wax / all) +
                    " of the fat. It saponifies slowly and in part: lye meant for it stays free, "
                    "and little of it is soap.",
                "Keep it to at most " + percent_text(kMostWaxShare, 0) +
                    " of the fats (our judgement), with oils or butters for the rest.");
}

Strength checked(Alkali alkali, const std::optional<Strength>& strength) {
  if (!strength) {
    if (alkali == Alkali::sodium_hydroxide) return {};
    throw Refusal(
        "The strength of the potassium hydroxide is not stated; what is sold runs from 85 "
        "to 92 %, and no figure is safe to assume.",
        "Read the assay off the supplier's certificate and state it, such as 90 %.");
  }
  const auto good = [](double value) { return value > 0.5 && value <= 1; };
  if (!good(strength->stated) || (strength->least && !good(*strength->least)) ||
      (strength->most && !good(*strength->most)) ||
      strength->least.value_or(0) > strength->most.value_or(INFINITY)) {
    throw Refusal(std::string("The strength of the ") + name(alkali) +
                      " is not a percentage that can be sold as such.",
                  "State the assay of the flakes or beads, between 50 and 100 %; ready-made lye "
                  "cannot be weighed as dry alkali.");
  }
  return *strength;
}

void check_settings(const LyeSettings& settings) {
  if (!std::isfinite(settings.superfat) || !std::isfinite(settings.never_below)) {
    throw Refusal("The superfat is not a number.", "Give it as a percentage, such as 5 %.");
  }
  if (settings.superfat < 0) {
    throw Refusal("A superfat of " + percent_text(settings.superfat) +
                      " leaves free alkali in the bar, which burns skin.",
                  "Aim for 5 %, and never below 0 %.");
  }
  if (settings.never_below < 0) {
    throw Refusal("A superfat floor of " + percent_text(settings.never_below) +
                      " would allow free alkali in the bar, which burns skin.",
                  "Set never-below to 0 % or more.");
  }
  if (settings.superfat > kMostSuperfat) {
    throw Refusal(
        "A superfat of " + percent_text(settings.superfat) + " leaves most of the oil as oil.",
        "Aim for at most 50 %; 5 % is usual.");
  }
  if (settings.never_below > settings.superfat && settings.never_below > kRaiseLimit) {
    throw Refusal("The superfat may never fall below " + percent_text(settings.never_below) +
                      ", but the aim is only " + percent_text(settings.superfat) + ".",
                  "Raise the aim above the floor, or lower the floor.");
  }
}

void refuse_loosest(std::span<const PotFat> fats, const LyeSettings& settings, const Scales& scales,
                    double limit, const PotCheck& verdict) {
  const auto loss = [](const PotFat& one) {
    const Span judged = judged_span(one);
    return moles_for(one.grams, judged.typical - judged.low);
  };
  const auto loosest = std::max_element(
      fats.begin(), fats.end(),
      [&](const PotFat& one, const PotFat& other) { return loss(one) < loss(other); });
  const PotFat& fat = *loosest;
  const double most = loss(fat);
  const Span span = judged_span(fat);
  const bool wax = saponifies_in_part(fat);
  std::string reason = "Even at " + percent_text(limit) + " superfat the worst case is " +
                       percent_text(verdict.band.low) + ", below the floor of " +
                       percent_text(settings.never_below) + ". The loosest figure is that of " +
                       fat.name + ": saponification value " + fixed(span.low, 0) + " to " +
                       fixed(span.high, 0) + " mg KOH/g, reckoned at " + fixed(span.typical, 0) +
                       (wax ? "; of a wax only the free acid is sure to react." : ".");
  double scale_loss = 0;
  for (const auto& each : fats) {
    scale_loss += moles_for(error_of(each, scales), judged_span(each).low);
  }
  if (scale_loss > most) {
    reason += " The oils scale's error of " + grams_text(scales.oils.error_grams()) +
              " a line costs still more.";
  }
  const auto at = static_cast<std::size_t>(loosest - fats.begin());
  const double cap = cap_of(fats, at, settings, scales, verdict);
  const bool potash = settings.alkali != LyeSettings::Choice::sodium_hydroxide;
  const Strength koh = strength_of(settings, Alkali::potassium_hydroxide);
  std::string remedy;
  if (potash && may_be_a_floor(Alkali::potassium_hydroxide, koh)) {
    reason += " The potassium hydroxide, stated at " + percent_text(koh.stated) +
              ", may be a lot of " + percent_text(kStrongestPotash, 0) +
              " under a label of 'at least'.";
    remedy = "State the assay of your lot and the most it may be. ";
  }
  remedy += cap > 0 ? "Keep " + fat.name + " to at most " + percent_text(cap, 0) + " of the fats"
                    : "Put steadier oils in place of " + fat.name;
  remedy += fat.certified || wax
                ? ", or lower the floor."
                : ", or get the certificate of your lot and enter its saponification value.";
  if (scale_loss > most) remedy += " A finer scale or a larger batch helps too.";
  const Strength naoh = strength_of(settings, Alkali::sodium_hydroxide);
  if (potash || (naoh.stated < 1 && !naoh.most)) {
    remedy +=
        " The highest strength the alkali's certificate allows, if you state it, narrows the "
        "worst case as well.";
  }
  throw Refusal(reason, remedy);
}

}  // namespace barwright::core::lye_parts
