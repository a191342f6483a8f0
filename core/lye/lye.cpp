#include "core/lye/lye.hpp"

#include <algorithm>
#include <cmath>

#include "core/lye/batch_pot.hpp"
#include "core/lye/lye_checks.hpp"
#include "core/lye/lye_notes.hpp"
#include "core/lye/lye_parts.hpp"
#include "core/lye/superfat_levels.hpp"
#include "core/units/error.hpp"
#include "core/units/format.hpp"

namespace barwright::core {

using namespace lye_parts;

namespace {

constexpr double kScaleShare = 0.01;  // of the alkali, what the scale may be off by

/// The lines that give `moles` of alkali, each rounded down.
std::vector<AlkaliLine> dose_for(double moles, const LyeSettings& settings, const Scales& scales) {
  std::vector<AlkaliLine> dose;
  using Choice = LyeSettings::Choice;
  double potassium = settings.alkali == Choice::potassium_hydroxide ? 1 : 0;
  Strength naoh, koh;
  if (settings.alkali != Choice::potassium_hydroxide) {
    naoh = checked(Alkali::sodium_hydroxide, settings.naoh_strength);
  }
  if (settings.alkali != Choice::sodium_hydroxide) {
    koh = checked(Alkali::potassium_hydroxide, settings.koh_strength);
  }
  if (settings.alkali == Choice::mixed) {
    potassium =
        koh_shares(settings.koh_share, settings.basis, {.naoh = naoh.stated, .koh = koh.stated})
            .moles;
  }
  const auto add = [&](Alkali alkali, const Strength& strength, double share) {
    if (share <= 0) return;
    const double grams = moles * share * molar_mass(alkali) / strength.stated;
    dose.push_back({alkali, rounded_down(grams, scales.lye.step), strength.stated, grams});
  };
  add(Alkali::sodium_hydroxide, naoh, 1 - potassium);
  add(Alkali::potassium_hydroxide, koh, potassium);
  return dose;
}

void check_scale(std::span<const AlkaliLine> dose, double oil_grams, const Scales& scales) {
  const double error = scales.lye.error_grams();
  double off = 0, exact = 0;
  for (const auto& line : dose) {
    off += error * line.purity / molar_mass(line.alkali);
    exact += line.exact_grams * line.purity / molar_mass(line.alkali);
  }
  if (off <= kScaleShare * exact) return;
  const double share = off / exact;
  const double step = usual_step(error * kScaleShare / share);
  throw Refusal("The lye scale may be off by " + grams_text(error) + ", which is " +
                    percent_text(share) + " of the alkali; more than 1 % is not safe.",
                "Weigh the alkali on a scale good to " + grams_text(step) +
                    " and say so, or make at least " +
                    grams_text(10 * std::ceil(oil_grams * share / kScaleShare / 10)) + " of oils.");
}

/// Raises the superfat level by level until the worst case of the pot keeps to its floor; returns
/// the verdict on the pot as it then stands. Throws a Refusal where no level does.
PotCheck dose_safely(double need, double corrected, const LyeSettings& settings,
                     const Scales& scales, double oil_grams, Pot& pot, Lye& lye) {
  const std::vector<double> levels = superfat_levels(settings.superfat);
  for (std::size_t step = 0;; ++step) {
    const double aim = levels[step];
    lye.raised_superfat = aim;
    lye.alkali = dose_for(need * (1 - aim) + corrected, settings, scales);
    check_scale(lye.alkali, oil_grams, scales);
    pot.alkali.clear();
    for (const auto& line : lye.alkali) {
      pot.alkali.push_back(
          {line.alkali, line.grams, strength_of(settings, line.alkali), scales.lye.error_grams()});
    }
    PotCheck verdict = check_pot(pot, scales);
    if (step == 0) lye.asked_worst = verdict.band.low;
    if (verdict.band.low >= settings.never_below) return verdict;
    if (step + 1 == levels.size()) refuse_loosest(pot.fats, settings, scales, aim, verdict);
  }
}

/// What is weighed of the alkali, and what of that is alkali; g.
struct Dissolved {
  double weighed = 0, pure = 0;
};

/// Fills in the share of potash, by moles of the alkali dosed. Throws where a line weighs nothing.
Dissolved count_alkali(double dosed_moles, Lye& lye) {
  Dissolved all;
  double potassium = 0;
  for (const auto& line : lye.alkali) {
    if (!(line.grams > 0)) {
      throw Refusal(std::string("The ") + name(line.alkali) + ", " + grams_text(line.exact_grams) +
                        ", is less than one step of the lye scale.",
                    "Use a finer scale or a larger batch, or leave that alkali out.");
    }
    if (line.alkali == Alkali::potassium_hydroxide) {
      potassium = line.pure_grams() / kKohMolarMass / dosed_moles;
    }
    all.weighed += line.grams;
    all.pure += line.pure_grams();
  }
  lye.koh = koh_shares(potassium, MixBasis::moles,
                       {.naoh = lye.alkali.front().purity, .koh = lye.alkali.back().purity});
  return all;
}

void check_water(const WaterRule& rule) {
  if (!(rule.value > 0) || !std::isfinite(rule.value) ||
      (rule.kind == WaterRule::Kind::concentration && rule.value >= 1)) {
    throw Refusal(
        "The water setting is not usable.",
        "Give a lye concentration such as 33 %, water per alkali such as 2, or water as a "
        "share of the oils such as 30 %.");
  }
}

}  // namespace

bool saponifies_in_part(const PotFat& fat) {
  return fat.form == FatForm::wax || fat.unsaponifiable > kWaxlikeUnsaponifiable;
}

Span judged_span(const PotFat& fat) {
  const Span& span = fat.saponification_value;
  if (saponifies_in_part(fat)) {
    // A wax ester saponifies slowly and never wholly in a cold pot; its free acid does at once. At
    // best all of it does.
    return {std::clamp(fat.acid_value, 0.0, span.typical), span.typical,
            std::max(span.high, span.typical * (1 + kLeastSpread))};
  }
  const double spread = fat.certified ? kCertifiedSpread : kLeastSpread;
  return {std::min(span.low, span.typical * (1 - spread)), span.typical,
          std::max(span.high, span.typical * (1 + spread))};
}

Strength strength_of(const LyeSettings& settings, Alkali alkali) {
  const auto& stated =
      alkali == Alkali::sodium_hydroxide ? settings.naoh_strength : settings.koh_strength;
  return stated.value_or(Strength{});
}

Lye lye_for(std::span<const PotFat> fats, std::span<const Acid> acids, const LyeSettings& settings,
            const Scales& scales, double oil_grams) {
  check(scales);
  check_settings(settings);
  for (const auto& fat : fats) check_fat(fat);
  const double need = typical_moles(fats);
  if (!(need > 0)) {
    throw Refusal("There is no fat in the lye pot.", "Give at least one oil with a weight.");
  }
  check_waxes(fats);
  double corrected = 0;
  for (const auto& acid : acids) {
    if (acid.answer == AcidAnswer::correct) corrected += alkali_moles(acid);
  }

  Lye lye;
  Pot pot{{fats.begin(), fats.end()}, {acids.begin(), acids.end()}, {}};
  const PotCheck verdict = dose_safely(need, corrected, settings, scales, oil_grams, pot, lye);
  lye.asked_superfat = settings.superfat;
  if (lye.raised_superfat > lye.asked_superfat && !settings.may_raise) {
    refuse_raising(lye, settings);
  }
  lye.superfat = verdict.superfat;
  lye.band = verdict.band;
  // As asked for is no fault of the acids, nor what rounding the alkali down adds.
  if (verdict.acid_moles > corrected && lye.superfat > kMostSuperfat) {
    throw Refusal("The acids use up so much of the alkali that " + percent_text(lye.superfat) +
                      " of the fat would stay fat.",
                  "Use less acid, or have the lye corrected for it.");
  }
  lye.saponifiable_moles = need;
  lye.acid_moles = verdict.acid_moles;
  for (const auto& fat : fats) lye.unsaponifiable_grams += fat.grams * fat.unsaponifiable;
  const Dissolved alkali = count_alkali(verdict.dosed_moles, lye);
  check_water(settings.water);
  lye.water_grams = water_for(settings.water, alkali.pure, alkali.weighed, oil_grams);
  lye.forgotten = if_forgotten(pot, scales);
  add_notes(lye, fats, acids, settings, scales);
  return lye;
}

}  // namespace barwright::core
