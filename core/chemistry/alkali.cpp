#include "core/chemistry/alkali.hpp"

#include <algorithm>
#include <cmath>

#include "core/units/error.hpp"

namespace barwright::core {

namespace {

constexpr double kLabelDoubt = 0.01;    // judgement: one point either side of a stated strength
constexpr double kUnstatedNaoh = 0.97;  // recalled: sodium hydroxide is sold at 97 to 99 %

}  // namespace

const char* name(Alkali alkali) {
  return alkali == Alkali::sodium_hydroxide ? "sodium hydroxide" : "potassium hydroxide";
}

double molar_mass(Alkali alkali) {
  return alkali == Alkali::sodium_hydroxide ? kNaohMolarMass : kKohMolarMass;
}

double grams_for_koh(Alkali alkali, double koh_grams) {
  return koh_grams * (molar_mass(alkali) / kKohMolarMass);
}

bool may_be_a_floor(Alkali alkali, const Strength& strength) {
  return alkali == Alkali::potassium_hydroxide && !strength.most &&
         strength.stated < kPotashLabelEnds - 1e-9;
}

double strongest(Alkali alkali, const Strength& strength) {
  if (strength.most) return std::max(strength.stated, *strength.most);
  if (alkali == Alkali::sodium_hydroxide) return 1;
  if (may_be_a_floor(alkali, strength)) return kStrongestPotash;
  return std::min(1.0, strength.stated + kLabelDoubt);
}

double weakest(Alkali alkali, const Strength& strength) {
  if (strength.least) return std::min(strength.stated, *strength.least);
  if (alkali == Alkali::sodium_hydroxide && strength.stated >= 1) return kUnstatedNaoh;
  return std::max(0.0, strength.stated - kLabelDoubt);
}

KohShares koh_shares(double share, MixBasis basis, const DoseStrengths& strengths) {
  if (!(share >= 0 && share <= 1)) {
    throw Refusal("The potassium hydroxide share of the alkali is not between 0 and 100 %.",
                  "Say how much of the alkali is potassium hydroxide, such as 10 % by moles.");
  }
  // Moles of alkali in a weighed gram of each product.
  const double sodium = strengths.naoh / kNaohMolarMass;
  const double potassium = strengths.koh / kKohMolarMass;
  KohShares shares;
  if (basis == MixBasis::grams) {
    shares.grams = share;
    shares.moles = share * potassium / (share * potassium + (1 - share) * sodium);
  } else {
    shares.moles = share;
    shares.grams = share / potassium / (share / potassium + (1 - share) / sodium);
  }
  shares.fat = shares.moles;
  return shares;
}

}  // namespace barwright::core
