#include "core/lye/lye_strength.hpp"

#include <algorithm>
#include <cmath>

#include "core/chemistry/heat.hpp"
#include "core/chemistry/solubility.hpp"
#include "core/units/error.hpp"
#include "core/units/format.hpp"

namespace barwright::core {

namespace {

constexpr double kStrongest = 0.50;  // alkali needs at least its own weight of water
constexpr double kStrongCaution = 0.40;
constexpr double kWeakCaution = 0.25;
constexpr double kNearCrystals = 5;  // C: a draught or a cold night

}  // namespace

std::vector<Note> check_strength(const LyeSettings& settings, const KohShares& koh,
                                 double concentration, bool in_ice) {
  std::vector<Note> notes;
  const double planned = settings.lye_celsius.value_or(kAssumedLyeCelsius);
  const double celsius = in_ice ? std::min(planned, kIceLyeCelsius) : planned;
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
            (in_ice ? " or weaker: more water, or freeze less of it."
                    : " or weaker, or plan it warmer."));
  }
  if (in_ice && concentration > strongest_clear(curve, celsius - kNearCrystals)) {
    notes.push_back(
        {Severity::caution,
         "Lye of " + percent_text(concentration) +
             " in ice water is within 5 C of crystallising, and what is frozen in it hides the "
             "crystals: take the pot out of the ice water once no grain is felt, and pour the lye "
             "through a sieve."});
  } else if (concentration > strongest_clear(curve, celsius - kNearCrystals)) {
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
