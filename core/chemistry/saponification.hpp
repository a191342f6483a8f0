#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/chemistry/fatty_acid.hpp"

namespace barwright::core {

/// How the fatty acids of a fat are bound.
enum class FatForm {
  triglyceride,  ///< three on a glycerol
  free_acid,     ///< bound to nothing: commercial stearic acid
  wax,           ///< on a long alcohol: no arithmetic from the acids alone
};

/// Returns the mean molar mass of a profile's fatty acids, g/mol. Percentages are of mass, so this
/// is the harmonic mean. Errors: std::invalid_argument for an empty or negative profile.
double mean_molar_mass(const AcidProfile& profile);

/// Returns the calculated saponification value, mg KOH per g of fat: 1000 * M(KOH) over the
/// equivalent mass of the glyceride (or of the free acid), times the saponifiable share (mass
/// fraction, 1 - unsaponifiable). Molar masses averaged harmonically. Errors: as above; wax.
double calculated_saponification_value(const AcidProfile& profile, FatForm form,
                                       double saponifiable_share);

/// The same with the plain mean of molar masses, as AOCS Cd 3a-94 is written (recalled). For
/// comparison only: on lauric oils it is about 7 mg KOH/g too low.
double calculated_saponification_value_plain_mean(const AcidProfile& profile, FatForm form,
                                                  double saponifiable_share);

/// Returns the calculated iodine value, g I2 per 100 g of fat: the factors of AOCS Cd 1c-85 for
/// glycerides where it lists one, else the theoretical value. Errors: as above; wax.
double calculated_iodine_value(const AcidProfile& profile, FatForm form, double saponifiable_share);

/// Returns the saponification equivalent, g of fat per mole of KOH: 56106 / saponification value.
double saponification_equivalent(double saponification_value);

/// A certificate's figure that its own fatty acids do not bear out.
struct CertificateQuestion {
  std::string figure;   ///< "saponification value" or "iodine value"
  double claimed = 0;   ///< mg KOH/g, or g I2 per 100 g
  double computed = 0;  ///< the same, from the certificate's own acids
  std::string text;     ///< the question to put to the supplier
};

/// How far apart claimed and computed may be before a certificate is questioned (fraction).
inline constexpr double kCertificateDoubt = 0.02;

/// Returns each claimed figure that is over 2 % away from the one its own acids give; empty when
/// the certificate agrees with itself. Errors: as above.
std::vector<CertificateQuestion> question_certificate(const AcidProfile& profile, FatForm form,
                                                      double saponifiable_share,
                                                      std::optional<double> saponification_value,
                                                      std::optional<double> iodine_value);

}  // namespace barwright::core
