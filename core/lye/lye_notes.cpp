#include "core/lye/lye_notes.hpp"

#include <cmath>
#include <string>

#include "core/lye/lye_checks.hpp"
#include "core/units/error.hpp"
#include "core/units/format.hpp"

namespace barwright::core::lye_parts {

namespace {

/// What the maker writes to have the superfat as asked, where that is safe.
std::string insisting(const Lye& lye, const LyeSettings& settings) {
  const std::string asked = percent_text(lye.asked_superfat);
  if (lye.asked_worst < 0) {
    return asked + " cannot be insisted on: its worst case is " + percent_text(lye.asked_worst) +
           ", free lye. A certificate of the loosest oil, or a finer scale, brings it nearer.";
  }
  return "To have " + asked + " all the same, its worst case being " +
         percent_text(lye.asked_worst) + ", write 'superfat: {aim: " + asked +
         ", never-below: " + percent_text(std::floor(1000 * lye.asked_worst) / 1000) +
         "}' (the floor was " + percent_text(settings.never_below) + ").";
}

/// Says how far rounding the alkali down moved the superfat, and the scale that cures it.
void add_rounding_note(Lye& lye, const Scales& scales) {
  double moved = 0, per_step = 0;  // mol
  for (const auto& line : lye.alkali) {
    const double moles_per_gram = line.purity / molar_mass(line.alkali);
    moved += (line.exact_grams - line.grams) * moles_per_gram;
    per_step += moles_per_gram;
  }
  const double points = moved / lye.saponifiable_moles;
  if (points <= kMovedByRounding) return;
  // Rounding down takes at most one step of each alkali.
  const double enough = kMovedByRounding * lye.saponifiable_moles / per_step;
  lye.notes.push_back(
      {Severity::caution, "Rounding the alkali down to steps of " + grams_text(scales.lye.step) +
                              " moves the superfat from " + percent_text(lye.superfat - points) +
                              " to " + percent_text(lye.superfat) + ". A scale of " +
                              grams_text(usual_step(enough)) + " keeps that within 0.3 points."});
}

}  // namespace

void refuse_raising(const Lye& lye, const LyeSettings& settings) {
  throw Refusal("At " + percent_text(lye.asked_superfat) + " superfat the worst case is " +
                    percent_text(lye.asked_worst) + ", below the floor of " +
                    percent_text(settings.never_below) + ", and 'raise: no' keeps it from rising.",
                insisting(lye, settings) + " Or take 'raise: no' out: it would rise to " +
                    percent_text(lye.raised_superfat) + ".");
}

void add_notes(Lye& lye, std::span<const PotFat> fats, std::span<const Acid> acids,
               const LyeSettings& settings, const Scales& scales) {
  auto& notes = lye.notes;
  if (lye.raised_superfat > lye.asked_superfat) {
    notes.push_back({Severity::caution,
                     "Superfat raised from " + percent_text(lye.asked_superfat) + " to " +
                         percent_text(lye.raised_superfat) +
                         ": if the oils need their least alkali, and scale and strength go "
                         "against you too, the bar would have fallen below " +
                         percent_text(settings.never_below) + ". " + insisting(lye, settings),
                     true});
  }
  add_rounding_note(lye, scales);
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
  const Strength koh = strength_of(settings, Alkali::potassium_hydroxide);
  if (lye.koh.moles > 0 && may_be_a_floor(Alkali::potassium_hydroxide, koh)) {
    notes.push_back(
        {Severity::caution,
         "Potassium hydroxide at " + percent_text(koh.stated) +
             ": a label that says 'at least 85 %' is a floor, not a strength. Dosed by this "
             "figure, a 90 % lot is " +
             percent_text(0.90 / koh.stated - 1) + " too much; the worst case reckons with " +
             percent_text(kStrongestPotash, 0) +
             ". Ask for the assay, and state the most it allows."});
  }
  for (std::size_t i = 0; i < acids.size(); ++i) {
    const auto& entry = lye.forgotten[fats.size() + i];
    if (acids[i].answer != AcidAnswer::correct || acids[i].grams <= 0) continue;
    notes.push_back(
        {entry.lye_heavy ? Severity::danger : Severity::caution,
         "The lye holds extra alkali for the " + acids[i].name + ". If it is forgotten, " +
             (entry.superfat < 0 ? "free alkali is left: superfat " + percent_text(entry.superfat)
              : entry.lye_heavy
                  ? "free alkali may be left: superfat " + percent_text(entry.superfat) + ", " +
                        percent_text(entry.worst) + " at worst"
                  : "superfat is only " + percent_text(entry.superfat)) +
             "."});
  }
  std::vector<std::string> waxes, recalled;
  for (const auto& fat : fats) {
    if (saponifies_in_part(fat)) {
      waxes.push_back(fat.name);
    } else if (!fat.certified && fat.mark > Mark::computed) {
      recalled.push_back(fat.name);
    }
  }
  if (!waxes.empty()) {
    notes.push_back(
        {Severity::caution, "Wax saponifies slowly and in part (" + listed(waxes) +
                                "): the worst case counts its free acid alone. Lye meant for it "
                                "may still be free at the cut: keep it low and test the bar before "
                                "use."});
  }
  if (!recalled.empty()) {
    notes.push_back({Severity::note, "Saponification values not read from a published table (" +
                                         listed(recalled) +
                                         "): use the supplier's certificate where you have one."});
  }
}

}  // namespace barwright::core::lye_parts
