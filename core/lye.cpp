#include "core/lye.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/error.hpp"
#include "core/format.hpp"

namespace barwright::core {

namespace {

constexpr double kRaiseStep = 0.005;    // half a point
constexpr double kRaiseLimit = 0.08;    // superfat is not raised past this
constexpr double kMostSuperfat = 0.50;  // beyond, it is no longer soap
constexpr double kScaleShare = 0.01;    // of the alkali, what the scale may be off by
// mg KOH/g: a triglyceride or acid as heavy as C24 has 153 (computed), waxes go down to about 43
// (candelilla, recalled).
constexpr double kLeastValue = 150;
constexpr double kLeastWaxValue = 30;
constexpr double kMostValue = 600;  // above any fat: tributyrin is 557 (computed)

struct Dose {
  std::vector<AlkaliLine> lines;
  std::vector<Strength> strengths;

  double moles() const {
    double sum = 0;
    for (const auto& line : lines) sum += line.pure_grams() / molar_mass(line.alkali);
    return sum;
  }
  /// Moles with every line off by `error` g (signed) and at the end of its strength.
  double moles_at(double error, double (*strength)(Alkali, const Strength&)) const {
    double sum = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const auto& line = lines[i];
      sum += std::max(0.0, line.grams + error) * strength(line.alkali, strengths[i]) /
             molar_mass(line.alkali);
    }
    return sum;
  }
};

/// Moles of alkali the fats need: typical, and at both ends with scale error.
struct Need {
  double low = 0, typical = 0, high = 0;
};

double error_of(const PotFat& fat, const Scales& scales) {
  return fat.error.value_or(scales.oils.error_grams());
}

double moles_for(double grams, double value) { return grams * value / 1000 / kKohMolarMass; }

Need need_of(std::span<const PotFat> fats, const Scales& scales) {
  Need need;
  for (const auto& fat : fats) {
    const Span span = judged_span(fat);
    const double error = error_of(fat, scales);
    need.low += moles_for(std::max(0.0, fat.grams - error), span.low);
    need.typical += moles_for(fat.grams, span.typical);
    need.high += moles_for(fat.grams + error, span.high);
  }
  return need;
}

void check_fat(const PotFat& fat) {
  const Span& span = fat.saponification_value;
  if (!(fat.grams >= 0) || !std::isfinite(fat.grams)) {
    throw Refusal("The weight of '" + fat.name + "' is not a weight.", "Give it in grams.");
  }
  if (!std::isfinite(span.low) || !std::isfinite(span.typical) || !std::isfinite(span.high) ||
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

/// Throws unless the stated figures make a strength of this alkali; returns it.
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
      (strength->least && strength->most && *strength->least > *strength->most)) {
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

/// The lines that give `moles` of alkali, each rounded down.
Dose dose_for(double moles, const LyeSettings& settings, const Scales& scales) {
  Dose dose;
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
    potassium = koh_shares(settings.koh_share, settings.basis, naoh.stated, koh.stated).moles;
  }
  const auto add = [&](Alkali alkali, const Strength& strength, double share) {
    if (share <= 0) return;
    const double grams = moles * share * molar_mass(alkali) / strength.stated;
    dose.lines.push_back({alkali, rounded_down(grams, scales.lye.step), strength.stated, grams});
    dose.strengths.push_back(strength);
  };
  add(Alkali::sodium_hydroxide, naoh, 1 - potassium);
  add(Alkali::potassium_hydroxide, koh, potassium);
  return dose;
}

void check_scale(const Dose& dose, double oil_grams, const Scales& scales) {
  const double error = scales.lye.error_grams();
  double off = 0, exact = 0;
  for (const auto& line : dose.lines) {
    off += error * line.purity / molar_mass(line.alkali);
    exact += line.exact_grams * line.purity / molar_mass(line.alkali);
  }
  if (off <= kScaleShare * exact) return;
  const double share = off / exact;
  throw Refusal("The lye scale may be off by " + grams_text(error) + ", which is " +
                    percent_text(share) + " of the alkali; more than 1 % is not safe.",
                "Weigh the alkali on a scale good to " + grams_text(error * kScaleShare / share) +
                    " or finer, or make at least " +
                    grams_text(std::ceil(oil_grams * share / kScaleShare)) + " of oils.");
}

/// The line that gives most to the worst case, and how far it would have to be cut back.
[[noreturn]] void refuse_loosest(std::span<const PotFat> fats, const LyeSettings& settings,
                                 const Scales& scales, double limit, double worst) {
  std::size_t loosest = 0;
  double most = -1;
  for (std::size_t i = 0; i < fats.size(); ++i) {
    const Span span = judged_span(fats[i]);
    const double loss = moles_for(fats[i].grams, span.typical - span.low);
    if (loss > most) {
      most = loss;
      loosest = i;
    }
  }
  const auto& fat = fats[loosest];
  const Span span = judged_span(fat);
  std::string reason = "Even at " + percent_text(limit) + " superfat the worst case is " +
                       percent_text(worst) + ", below the floor of " +
                       percent_text(settings.never_below) + ". The loosest figure is that of " +
                       fat.name + ": saponification value " + fixed(span.low, 0) + " to " +
                       fixed(span.high, 0) + " mg KOH/g, reckoned at " + fixed(span.typical, 0) +
                       ".";
  double scale_loss = 0;
  for (const auto& each : fats) {
    scale_loss += moles_for(error_of(each, scales), judged_span(each).low);
  }
  if (scale_loss > most) {
    reason += " The oils scale's error of " + grams_text(scales.oils.error_grams()) +
              " a line costs still more.";
  }
  std::string remedy =
      fat.certified ? "Use less " + fat.name + ", or lower the floor."
                    : "Use less " + fat.name +
                          ", or get the certificate of your lot and enter its saponification "
                          "value.";
  if (scale_loss > most) remedy += " A finer scale or a larger batch helps too.";
  if (settings.alkali != LyeSettings::Choice::sodium_hydroxide ||
      (settings.naoh_strength && settings.naoh_strength->stated < 1 &&
       !settings.naoh_strength->most)) {
    remedy +=
        " The highest strength the alkali's certificate allows, if you state it, narrows the "
        "worst case as well.";
  }
  throw Refusal(reason, remedy);
}

double superfat_at(double available, double need) { return 1 - available / need; }

std::vector<Forgotten> forgotten_lines(std::span<const PotFat> fats, std::span<const Acid> acids,
                                       double dosed, double need, double acid_moles) {
  std::vector<Forgotten> lines;
  const auto add = [&](const std::string& line, double available, double left) {
    Forgotten entry;
    entry.line = line;
    entry.nothing_left = left <= 1e-9 * need;
    entry.superfat = entry.nothing_left ? 0 : superfat_at(available, left);
    entry.lye_heavy = entry.nothing_left || entry.superfat < 0;
    lines.push_back(entry);
  };
  for (std::size_t i = 0; i < fats.size(); ++i) {
    double left = 0;  // summed afresh: a difference of near equals would not reach zero
    for (std::size_t j = 0; j < fats.size(); ++j) {
      if (j != i) left += moles_for(fats[j].grams, fats[j].saponification_value.typical);
    }
    add(fats[i].name, dosed - acid_moles, left);
  }
  for (const auto& acid : acids) {
    add(acid.name, dosed - (acid_moles - alkali_moles(acid)), need);
  }
  return lines;
}

void add_notes(Lye& lye, std::span<const PotFat> fats, std::span<const Acid> acids,
               const LyeSettings& settings) {
  auto& notes = lye.notes;
  if (lye.raised_superfat > lye.asked_superfat + 1e-12) {
    notes.push_back({Severity::caution,
                     "Superfat raised from " + percent_text(lye.asked_superfat) + " to " +
                         percent_text(lye.raised_superfat) +
                         ": at the least figures of these oils the bar would have fallen below " +
                         percent_text(settings.never_below) + "."});
  }
  if (lye.superfat < 0.03) {
    notes.push_back(
        {Severity::caution, "Superfat " + percent_text(lye.superfat) +
                                " leaves little room for a slip of the hand; 5 % is usual."});
  }
  if (lye.superfat > 0.15) {
    notes.push_back({Severity::note, "Superfat " + percent_text(lye.superfat) +
                                         " is for salt bars and all-coconut bars; other bars turn "
                                         "soft and spoil sooner."});
  }
  if (lye.koh.moles > 0.20) {
    notes.push_back(
        {Severity::caution, "With " + percent_text(lye.koh.moles, 0) +
                                " of the alkali as potassium hydroxide this will not be a "
                                "hard bar, but a soft or liquid soap."});
  }
  if (lye.koh.moles > 0 && settings.koh_strength && settings.koh_strength->stated <= 0.87 &&
      !settings.koh_strength->most) {
    notes.push_back({Severity::caution,
                     "Potassium hydroxide at " + percent_text(settings.koh_strength->stated) +
                         ": a label that says 'at least 85 %' is a floor, not a strength. Dosed by "
                         "it, a 90 % lot is 6 % too much. Ask for the assay."});
  }
  for (std::size_t i = 0; i < acids.size(); ++i) {
    const auto& entry = lye.forgotten[fats.size() + i];
    if (acids[i].answer != AcidAnswer::correct || acids[i].grams <= 0) continue;
    notes.push_back(
        {entry.lye_heavy ? Severity::danger : Severity::caution,
         "The lye holds extra alkali for the " + acids[i].name + ". If it is forgotten, " +
             (entry.lye_heavy ? "free alkali is left: superfat " : "superfat is only ") +
             percent_text(entry.superfat) + "."});
  }
  std::string waxes, recalled;
  for (const auto& fat : fats) {
    auto& list = fat.form == FatForm::wax ? waxes : recalled;
    if (fat.form != FatForm::wax &&
        (fat.certified || fat.mark == Mark::read || fat.mark == Mark::certificate)) {
      continue;
    }
    if (list.find(fat.name) == std::string::npos) list += (list.empty() ? "" : ", ") + fat.name;
  }
  if (!waxes.empty()) {
    notes.push_back(
        {Severity::caution, "Wax saponifies slowly and in part (" + waxes +
                                "): lye meant for it may still be free at the cut. Keep "
                                "it low and test the bar before use."});
  }
  if (!recalled.empty()) {
    notes.push_back({Severity::note, "Saponification values not read from a published table (" +
                                         recalled +
                                         "): use the supplier's certificate where you have one."});
  }
}

}  // namespace

Span judged_span(const PotFat& fat) {
  const Span& span = fat.saponification_value;
  const double spread = fat.certified ? kCertifiedSpread : kLeastSpread;
  return {std::min(span.low, span.typical * (1 - spread)), span.typical,
          std::max(span.high, span.typical * (1 + spread))};
}

Lye lye_for(std::span<const PotFat> fats, std::span<const Acid> acids, const LyeSettings& settings,
            const Scales& scales, double oil_grams) {
  check(scales);
  check_settings(settings);
  for (const auto& fat : fats) check_fat(fat);
  const Need need = need_of(fats, scales);
  if (!(need.typical > 0)) {
    throw Refusal("There is no fat in the lye pot.", "Give at least one oil with a weight.");
  }
  double acid_moles = 0, corrected = 0, least_acid = 0, most_acid = 0;
  const double lye_error = scales.lye.error_grams();
  for (const auto& acid : acids) {
    const double moles = alkali_moles(acid);
    acid_moles += moles;
    if (acid.answer == AcidAnswer::correct) corrected += moles;
    least_acid += least_alkali_moles(acid, lye_error);
    most_acid += acid.grams > 0 ? moles * (1 + lye_error / acid.grams) : 0;
  }

  const double limit = std::max(kRaiseLimit, settings.superfat);
  double aim = settings.superfat;
  Dose dose;
  double worst = 0;
  for (int step = 0;; ++step) {
    aim = settings.superfat + step * kRaiseStep;
    dose = dose_for(need.typical * (1 - aim) + corrected, settings, scales);
    check_scale(dose, oil_grams, scales);
    const double most = dose.moles_at(lye_error, strongest) - least_acid;
    worst = need.low > 0 ? superfat_at(most, need.low) : -1;
    if (worst >= settings.never_below) break;
    if (aim + kRaiseStep > limit + 1e-12) refuse_loosest(fats, settings, scales, aim, worst);
  }

  Lye lye;
  lye.alkali = dose.lines;
  lye.asked_superfat = settings.superfat;
  lye.raised_superfat = aim;
  const double dosed = dose.moles();
  const double least = dose.moles_at(-lye_error, weakest) - most_acid;
  lye.superfat = superfat_at(dosed - acid_moles, need.typical);
  if (lye.superfat > kMostSuperfat) {
    throw Refusal("The acids use up so much of the alkali that " + percent_text(lye.superfat) +
                      " of the fat would stay fat.",
                  "Use less acid, or have the lye corrected for it.");
  }
  lye.band = {worst, superfat_at(std::max(0.0, least), need.high)};
  lye.saponifiable_moles = need.typical;
  lye.acid_moles = acid_moles;
  for (const auto& fat : fats) lye.unsaponifiable_grams += fat.grams * fat.unsaponifiable;
  double potassium = 0;
  double weighed = 0, pure = 0;
  for (const auto& line : lye.alkali) {
    if (!(line.grams > 0)) {
      throw Refusal(std::string("The ") + name(line.alkali) + ", " + grams_text(line.exact_grams) +
                        ", is less than one step of the lye scale.",
                    "Use a finer scale or a larger batch, or leave that alkali out.");
    }
    if (line.alkali == Alkali::potassium_hydroxide) {
      potassium = line.pure_grams() / kKohMolarMass / dosed;
    }
    weighed += line.grams;
    pure += line.pure_grams();
  }
  if (potassium > 0) {
    const auto& first = lye.alkali.front();
    lye.koh = koh_shares(potassium, MixBasis::moles, first.purity, lye.alkali.back().purity);
  }

  const auto& rule = settings.water;
  if (!(rule.value > 0) || !std::isfinite(rule.value) ||
      (rule.kind == WaterRule::Kind::concentration && rule.value >= 1)) {
    throw Refusal(
        "The water setting is not usable.",
        "Give a lye concentration such as 33 %, water per alkali such as 2, or water as a "
        "share of the oils such as 30 %.");
  }
  switch (rule.kind) {
    case WaterRule::Kind::concentration:
      lye.water_grams = pure / rule.value - weighed;
      break;
    case WaterRule::Kind::ratio:
      lye.water_grams = rule.value * weighed;
      break;
    case WaterRule::Kind::of_oils:
      lye.water_grams = rule.value * oil_grams;
      break;
  }
  lye.forgotten = forgotten_lines(fats, acids, dosed, need.typical, acid_moles);
  add_notes(lye, fats, acids, settings);
  return lye;
}

}  // namespace barwright::core
