#include "core/lye/lye_strength.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/lye/solubility.hpp"
#include "core/units/error.hpp"
#include "core/units/format.hpp"

namespace barwright::core {

namespace {

constexpr double kStrongest = 0.50;  // alkali needs at least its own weight of water
constexpr double kStrongCaution = 0.40;
constexpr double kWeakCaution = 0.25;
constexpr double kNearCrystals = 5;  // C: a draught or a cold night

/// -kJ/mol given off on dissolving, by moles of water per mole of alkali; recalled, NaOH.
struct Heat {
  double water;
  double kilojoules;
};
constexpr std::array<Heat, 5> kNaohHeat{{{3, 28.9}, {4, 34.4}, {5, 37.8}, {10, 42.5}, {200, 44.5}}};
constexpr double kKohOverNaoh = 57.6 / 44.5;  // ratio at infinite dilution, read (secondary)
constexpr double kLyeSpecificHeat = 3.5;      // J/gK at 30 to 33 %, recalled

/// Returns -kJ/mol at this many moles of water per mole; beyond the table as at its ends.
double naoh_heat(double water) {
  std::size_t i = 1;
  while (i + 1 < kNaohHeat.size() && water > kNaohHeat[i].water) ++i;
  const auto& a = kNaohHeat[i - 1];
  const auto& b = kNaohHeat[i];
  const double at = std::clamp(water, a.water, b.water);
  return a.kilojoules + (b.kilojoules - a.kilojoules) * (at - a.water) / (b.water - a.water);
}

}  // namespace

double self_heating_celsius(Alkali alkali, double concentration) {
  if (concentration <= 0) return 0;
  const double moles = concentration / molar_mass(alkali);  // per g of lye
  const double water = (1 - concentration) / 18.015 / moles;
  double heat = naoh_heat(water);
  if (alkali == Alkali::potassium_hydroxide) heat *= kKohOverNaoh;
  return moles * heat * 1000 / kLyeSpecificHeat;
}

std::vector<Note> check_strength(const LyeSettings& settings, const KohShares& koh,
                                 double concentration) {
  std::vector<Note> notes;
  const double celsius = settings.lye_celsius.value_or(kAssumedLyeCelsius);
  if (!std::isfinite(celsius) || celsius < 0 || celsius > 100) {
    throw Refusal("A lye temperature of " + fixed(celsius, 0) + " C is not one to work at.",
                  "Plan the lye between 20 and 45 C.");
  }
  if (concentration > kStrongest + 1e-9) {
    throw Refusal("The lye pot would hold " + percent_text(concentration) +
                      " alkali; above 50 % it does not dissolve safely.",
                  "Give the alkali at least its own weight of water before late liquids join.");
  }
  // No curve for mixtures was found: sodium hydroxide, the less soluble, decides while any is
  // there.
  const Alkali curve =
      koh.moles >= 1 - 1e-9 ? Alkali::potassium_hydroxide : Alkali::sodium_hydroxide;
  const double clear = strongest_clear(curve, celsius);
  if (concentration > clear) {
    throw Refusal(
        "Lye of " + percent_text(concentration) + " crystallises at " + fixed(celsius, 0) +
            " C, and what lies on the bottom is missing from the oils, "
            "then burns where it lands.",
        "At that temperature keep it to " + percent_text(std::floor(clear * 1000) / 1000) +
            " or weaker, or plan it warmer.");
  }
  if (concentration > strongest_clear(curve, celsius - kNearCrystals)) {
    notes.push_back(
        {Severity::caution,
         "Lye of " + percent_text(concentration) + " at " + fixed(celsius, 0) +
             " C is within 5 C of crystallising: see that it is clear before it is used, "
             "and do not let it stand overnight."});
  }
  if (concentration > kStrongCaution) {
    notes.push_back({Severity::caution, "Lye of " + percent_text(concentration) +
                                            " is strong: it spits, heats hard and thickens the "
                                            "batter fast. 33 % is usual."});
  }
  if (concentration < kWeakCaution) {
    notes.push_back(
        {Severity::caution, "Lye of " + percent_text(concentration) +
                                " is weak: slow trace, a soft bar and much shrinkage. 33 "
                                "% is usual."});
  }
  if (celsius > 60) {
    notes.push_back(
        {Severity::caution, "Lye at " + fixed(celsius, 0) +
                                " C can make the batter seize or boil over; let it cool "
                                "below 45 C."});
  }
  return notes;
}

}  // namespace barwright::core
