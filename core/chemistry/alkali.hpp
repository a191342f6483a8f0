#pragma once

#include <array>
#include <optional>

#include "core/units/note.hpp"

namespace barwright::core {

enum class Alkali { sodium_hydroxide, potassium_hydroxide };

/// Molar masses, g/mol (IUPAC 2021 atomic masses; KOH to the three places used everywhere here).
inline constexpr double kNaohMolarMass = 39.997;
inline constexpr double kKohMolarMass = 56.106;

/// Returns "sodium hydroxide" or "potassium hydroxide".
const char* name(Alkali alkali);
/// Returns g/mol.
double molar_mass(Alkali alkali);
/// Returns the grams of pure alkali that do the work of `koh_grams` of pure KOH.
double grams_for_koh(Alkali alkali, double koh_grams);

/// What is known of an alkali's strength: mass fraction of the product that is the alkali.
struct Strength {
  double stated = 1;              ///< what the dose is reckoned with
  std::optional<double> least{};  ///< the supplier's lower limit, when known
  std::optional<double> most{};   ///< the supplier's upper limit, when known
};

/// Potassium hydroxide is sold up to this strength (recalled). What is stated below
/// `kPotashLabelEnds` may be the floor of a label ("at least 85 %": USP and JECFA, read), no assay.
inline constexpr double kStrongestPotash = 0.92;
inline constexpr double kPotashLabelEnds = 0.90;

/// Returns whether a stated strength may be a label's floor that the lot lies well above.
bool may_be_a_floor(Alkali alkali, const Strength& strength);
/// Returns the strongest this product can be: its stated upper limit; else 100 % for sodium
/// hydroxide (a jar may always be better than its label), 92 % for potassium hydroxide stated below
/// 90 %, one point above what is stated otherwise (judgement).
double strongest(Alkali alkali, const Strength& strength);
/// Returns the weakest: its stated lower limit; else 3 points below 100 % for unstated sodium
/// hydroxide (97 to 99 % is sold: recalled), one point below what is stated otherwise (judgement).
double weakest(Alkali alkali, const Strength& strength);

/// What "10 % KOH" is ten per cent of. `fat` and `moles` agree: a mole of either alkali makes soap
/// of the same fat.
enum class MixBasis {
  moles,  ///< of the alkali molecules
  grams,  ///< of the grams weighed out, strength and all
  fat,    ///< of the fat, by what each alkali saponifies
};

/// The potassium hydroxide share of a mixed alkali on every basis, fractions.
struct KohShares {
  double moles = 0;
  double grams = 0;
  double fat = 0;
};

/// The strengths that a dose is reckoned with, fractions.
struct DoseStrengths {
  double naoh = 1;
  double koh = 1;
};

/// Returns all three shares from one. Errors: Refusal for a share outside 0..1.
KohShares koh_shares(double share, MixBasis basis, const DoseStrengths& strengths);

}  // namespace barwright::core
