#include "core/lye/acid.hpp"

#include <algorithm>
#include <cmath>

#include "core/chemistry/alkali.hpp"
#include "core/units/error.hpp"

namespace barwright::core {

namespace {

// Molar masses from IUPAC 2021 atomic masses, g/mol.
constexpr double kCitric = 6 * 12.011 + 8 * 1.008 + 7 * 15.999;
constexpr double kWater = 2 * 1.008 + 15.999;
constexpr double kCitricMonohydrate = kCitric + kWater;
constexpr double kLactic = 3 * 12.011 + 6 * 1.008 + 3 * 15.999;
constexpr double kAcetic = 2 * 12.011 + 4 * 1.008 + 2 * 15.999;
constexpr double kSolutionDoubt = 0.05;  // judgement, relative

bool is_crystal(AcidForm form) {
  return form == AcidForm::citric_anhydrous || form == AcidForm::citric_monohydrate;
}

double strength_of(const Acid& acid) {
  if (is_crystal(acid.form) && acid.strength == 0) return 1;
  if (!(acid.strength > 0 && acid.strength <= 1)) {
    throw Refusal("The strength of '" + acid.name + "' is not stated, or is not a percentage.",
                  "Read it off the bottle and state it, such as 88 % lactic acid or 5 % vinegar.");
  }
  return acid.strength;
}

/// Moles of alkali per gram of the pure form.
double moles_per_gram(const Acid& acid) {
  switch (acid.form) {
    case AcidForm::citric_anhydrous:
      return 3 / kCitric;
    case AcidForm::citric_monohydrate:
      return 3 / kCitricMonohydrate;
    case AcidForm::lactic:
      return 1 / kLactic;
    case AcidForm::acetic:
      return 1 / kAcetic;
    case AcidForm::other:
      break;
  }
  if (!(acid.equivalents_per_mole > 0 && acid.molar_mass > 0) ||
      !std::isfinite(acid.equivalents_per_mole) || !std::isfinite(acid.molar_mass)) {
    throw Refusal("'" + acid.name + "' has no molar mass or number of acid groups.",
                  "State both from the supplier's paper, or leave the acid out.");
  }
  return acid.equivalents_per_mole / acid.molar_mass;
}

void check_grams(const Acid& acid) {
  if (!(acid.grams >= 0) || !std::isfinite(acid.grams)) {
    throw Refusal("The weight of '" + acid.name + "' is not a weight.", "Give it in grams.");
  }
}

}  // namespace

double naoh_per_gram(const Acid& acid) { return moles_per_gram(acid) * kNaohMolarMass; }

double alkali_moles(const Acid& acid) {
  check_grams(acid);
  return acid.grams * strength_of(acid) * moles_per_gram(acid);
}

double least_alkali_moles(const Acid& acid, double error_grams) {
  check_grams(acid);
  const bool pure = is_crystal(acid.form) && strength_of(acid) == 1;
  const double doubt = pure ? 0 : kSolutionDoubt;
  return std::max(0.0, acid.grams - error_grams) * strength_of(acid) * (1 - doubt) *
         moles_per_gram(acid);
}

std::string salt_word(const Acid& acid) {
  switch (acid.form) {
    case AcidForm::citric_anhydrous:
    case AcidForm::citric_monohydrate:
      return "citrate";
    case AcidForm::lactic:
      return "lactate";
    case AcidForm::acetic:
      return "acetate";
    case AcidForm::other:
      break;
  }
  return {};
}

double salt_grams(const Acid& acid, Alkali alkali) {
  const double moles = salt_word(acid).empty() ? 0 : alkali_moles(acid);
  if (!(moles > 0)) return 0;
  // Each mole of alkali puts its metal where a hydrogen was: acid + alkali - water.
  const double pure = acid.grams - water_grams(acid);
  return pure + moles * (molar_mass(alkali) - kWater);
}

double water_grams(const Acid& acid) {
  check_grams(acid);
  const double strength = strength_of(acid);
  double water = acid.grams * (1 - strength);
  if (acid.form == AcidForm::citric_monohydrate) {
    water += acid.grams * strength * kWater / kCitricMonohydrate;
  }
  return water;
}

}  // namespace barwright::core
