#include "core/chemistry/saponification.hpp"

#include <array>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "core/chemistry/alkali.hpp"
#include "core/units/format.hpp"

namespace barwright::core {

namespace {

// IUPAC 2021 atomic masses, g/mol.
constexpr double kGlycerol = 3 * 12.011 + 8 * 1.008 + 3 * 15.999;
constexpr double kWater = 2 * 1.008 + 15.999;
constexpr double kIodine = 2 * 126.90447;

double checked_sum(const AcidProfile& profile, FatForm form, double saponifiable_share) {
  double sum = 0;
  for (const double fraction : profile) {
    if (!(fraction >= 0) || !std::isfinite(fraction)) {
      throw std::invalid_argument("a fatty acid profile holds a negative or unreal fraction");
    }
    sum += fraction;
  }
  if (!(sum > 0)) throw std::invalid_argument("an empty fatty acid profile");
  if (form == FatForm::wax) {
    throw std::invalid_argument("a wax's figures do not follow from its fatty acids alone");
  }
  if (!(saponifiable_share >= 0 && saponifiable_share <= 1)) {
    throw std::invalid_argument("a saponifiable share outside 0 to 1");
  }
  return sum;
}

double glyceride_mass(double acid_mass) { return 3 * acid_mass + kGlycerol - 3 * kWater; }

double value_from_mean(double mean, FatForm form, double saponifiable_share) {
  const double equivalent = form == FatForm::free_acid ? mean : glyceride_mass(mean) / 3;
  return 1000 * kKohMolarMass / equivalent * saponifiable_share;
}

/// AOCS Cd 1c-85 factors for triglycerides, g I2 per 100 g and per % of the acid; 0: not listed.
double listed_iodine_factor(FattyAcid acid) {
  switch (acid) {
    case FattyAcid::C16_1:
      return 0.950;
    case FattyAcid::C18_1:
    case FattyAcid::C18_1t:
      return 0.860;
    case FattyAcid::C18_2:
      return 1.732;
    case FattyAcid::C18_3a:
    case FattyAcid::C18_3g:
      return 2.616;
    case FattyAcid::C20_1:
      return 0.785;
    case FattyAcid::C22_1:
      return 0.723;
    default:
      return 0;
  }
}

}  // namespace

double mean_molar_mass(const AcidProfile& profile) {
  const double sum = checked_sum(profile, FatForm::triglyceride, 1);
  double moles = 0;
  for (const auto& facts : acid_facts()) moles += at(profile, facts.acid) / molar_mass(facts.acid);
  return sum / moles;
}

double calculated_saponification_value(const AcidProfile& profile, FatForm form,
                                       double saponifiable_share) {
  checked_sum(profile, form, saponifiable_share);
  return value_from_mean(mean_molar_mass(profile), form, saponifiable_share);
}

double calculated_saponification_value_plain_mean(const AcidProfile& profile, FatForm form,
                                                  double saponifiable_share) {
  const double sum = checked_sum(profile, form, saponifiable_share);
  double mean = 0;
  for (const auto& facts : acid_facts()) mean += at(profile, facts.acid) * molar_mass(facts.acid);
  return value_from_mean(mean / sum, form, saponifiable_share);
}

double calculated_iodine_value(const AcidProfile& profile, FatForm form,
                               double saponifiable_share) {
  const double sum = checked_sum(profile, form, saponifiable_share);
  double value = 0;
  for (const auto& facts : acid_facts()) {
    if (facts.double_bonds == 0) continue;
    const double percent = 100 * at(profile, facts.acid) / sum * saponifiable_share;
    const double mass = molar_mass(facts.acid);
    double factor = form == FatForm::triglyceride ? listed_iodine_factor(facts.acid) : 0;
    if (factor == 0) {
      factor = form == FatForm::free_acid ? kIodine * facts.double_bonds / mass
                                          : 3 * kIodine * facts.double_bonds / glyceride_mass(mass);
    }
    value += percent * factor;
  }
  return value;
}

double saponification_equivalent(double saponification_value) {
  if (!(saponification_value > 0)) {
    throw std::invalid_argument("a saponification value must be above zero");
  }
  return 1000 * kKohMolarMass / saponification_value;
}

std::vector<CertificateQuestion> question_certificate(const AcidProfile& profile, FatForm form,
                                                      double saponifiable_share,
                                                      std::optional<double> saponification_value,
                                                      std::optional<double> iodine_value) {
  std::vector<CertificateQuestion> questions;
  const auto ask = [&](const char* figure, const char* unit, double claimed, double computed) {
    // Below an iodine value of 5 the second decimal of a percentage moves it by more than 2 %.
    const double base = std::max(computed, 5.0);
    if (std::abs(claimed - computed) <= kCertificateDoubt * base) return;
    questions.push_back({figure, claimed, computed,
                         std::string("The certificate says ") + figure + " " + fixed(claimed, 1) +
                             " " + unit + ", but its own fatty acids give " + fixed(computed, 1) +
                             ". Ask the supplier which is right before the lye is weighed."});
  };
  if (saponification_value) {
    ask("saponification value", "mg KOH/g", *saponification_value,
        calculated_saponification_value(profile, form, saponifiable_share));
  }
  if (iodine_value) {
    ask("iodine value", "g I2/100 g", *iodine_value,
        calculated_iodine_value(profile, form, saponifiable_share));
  }
  return questions;
}

}  // namespace barwright::core
