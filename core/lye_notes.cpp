#include <string>

#include "core/format.hpp"
#include "core/lye_parts.hpp"

namespace barwright::core::lye_parts {

void add_notes(Lye& lye, std::span<const PotFat> fats, std::span<const Acid> acids,
               const LyeSettings& settings) {
  auto& notes = lye.notes;
  if (lye.raised_superfat > lye.asked_superfat + 1e-12) {
    notes.push_back(
        {Severity::caution,
         "Superfat raised from " + percent_text(lye.asked_superfat) + " to " +
             percent_text(lye.raised_superfat) +
             ": if the oils need their least alkali, and scale and strength go against you too, "
             "the bar would have fallen below " +
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

}  // namespace barwright::core::lye_parts
