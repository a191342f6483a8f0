#pragma once

#include <string>

#include "core/chemistry/alkali.hpp"
#include "core/lye/into.hpp"

namespace barwright::core {

/// The exact form of an acid: there is no plain "citric acid", the two differ by 9 %.
enum class AcidForm { citric_anhydrous, citric_monohydrate, lactic, acetic, other };

/// What is done about the alkali that an acid uses up.
enum class AcidAnswer {
  correct,            ///< more lye, so that the superfat stays
  let_superfat_rise,  ///< lye as without it; the superfat rises
};

/// An acid in the recipe (fatty acids are fats, not this).
struct Acid {
  std::string name;
  AcidForm form = AcidForm::citric_anhydrous;
  double grams = 0;  ///< as weighed, water and all
  /// Mass fraction that is the acid. Must be stated for lactic, acetic and other (0 = not stated);
  /// 1 for the citric crystals.
  double strength = 0;
  double equivalents_per_mole = 0;  ///< only `other`
  double molar_mass = 0;            ///< only `other`, g/mol
  AcidAnswer answer = AcidAnswer::correct;
  Into into = Into::lye;  ///< in the water before the alkali: poured into made lye it spits
};

/// Returns g NaOH that one g of the pure form uses up: citric anhydrous 0.6245, monohydrate 0.571,
/// lactic 0.444, acetic 0.666, from molar masses. Errors: Refusal for `other` without its figures.
double naoh_per_gram(const Acid& acid);
/// Returns the moles of alkali the weighed grams use up. Errors: Refusal when a strength is missing
/// or out of range, or grams are negative.
double alkali_moles(const Acid& acid);
/// Returns the fewest moles it may use up: solutions up to 5 % (relative) weaker than stated
/// (judgement), `error_grams` short on the scale.
double least_alkali_moles(const Acid& acid, double error_grams);
/// Returns what it becomes in soap, without the alkali's name: "citrate", "lactate", "acetate";
/// empty for `other`.
std::string salt_word(const Acid& acid);
/// Returns g of that salt of this alkali, no water in it; 0 for `other`.
double salt_grams(const Acid& acid, Alkali alkali);
/// Returns the water it brings as weighed, g (crystal water included).
double water_grams(const Acid& acid);

}  // namespace barwright::core
