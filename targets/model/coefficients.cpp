#include "targets/model/coefficients.hpp"

#include <algorithm>
#include <cmath>

namespace barwright::targets {
namespace {

using core::AcidFacts;
using core::AcidProfile;
using core::FattyAcid;

constexpr double kGasConstant = 8.314462618;  // J/(mol K), exact in the SI of 2019
constexpr double kIceKelvin = 273.15;

// Quadratic in chain length through the three measured saturates (C12, C14, C18).
double saturated_point(const ConstantValues& v, int carbons) {
  const double c12 = v[Scalar::concentrated_point_laurate];
  const double c14 = v[Scalar::concentrated_point_myristate];
  const double c18 = v[Scalar::concentrated_point_stearate];
  const double n = carbons - 14;
  const double up = (c18 - c14) / 4, down = (c14 - c12) / 2;
  const double bend = (up - down) / 6;
  return c14 + (up - 4 * bend) * n + bend * n * n;
}

double oxidation(const ConstantTable& table, const ConstantValues& v, const AcidFacts& facts) {
  const auto& set = table.oxidation[static_cast<std::size_t>(v[Scalar::oxidation_ratios])];
  if (facts.acid == FattyAcid::C18_1t) return v[Scalar::oxidation_trans] * set.monoene;
  if (facts.hydroxyls > 0) return v[Scalar::oxidation_hydroxy] * set.monoene;
  // The two bonds of meadowfoam's docosadienoic acid stand far apart: it ages as two monoenes.
  if (facts.acid == FattyAcid::C22_2) return 2 * set.monoene;
  switch (facts.double_bonds) {
    case 0:
      return 0;
    case 1:
      return set.monoene;
    case 2:
      return set.diene;
    case 3:
      return set.triene;
    default:
      return set.triene + (facts.double_bonds - 3) * (set.triene - set.diene);
  }
}

void scale_to_100(AcidProfile& profile) {
  const double most = *std::max_element(profile.begin(), profile.end());
  for (double& x : profile) x *= 100 / most;
}

}  // namespace

double saturation(double enthalpy, double temperature, double point) {
  if (temperature >= point) return 1;
  const double inverse = 1 / (temperature + kIceKelvin) - 1 / (point + kIceKelvin);
  return std::exp(-enthalpy * 1000 / kGasConstant * inverse);
}

AcidProfile blend_alkali(const std::array<AcidProfile, 2>& both, double koh_share) {
  AcidProfile out{};
  for (std::size_t k = 0; k < out.size(); ++k)
    out[k] = (1 - koh_share) * both[0][k] + koh_share * both[1][k];
  return out;
}

Chains derive_chains(const ConstantTable& table, const ConstantValues& v) {
  Chains out;
  const double strength = v[Scalar::lather_strength];
  for (const AcidFacts& facts : core::acid_facts()) {
    const FattyAcid acid = facts.acid;
    const auto k = static_cast<std::size_t>(acid);
    const bool saturated = facts.double_bonds == 0;
    const double enthalpy = v.of(Table::melting_enthalpy, acid);
    const double krafft = v.of(Table::krafft_point, acid);

    out.concentrated_point[0][k] =
        saturated ? saturated_point(v, facts.carbons) : v.of(Table::concentrated_point, acid);
    out.concentrated_point[1][k] =
        saturated ? v[Scalar::potassium_point_myristate] + (v[Scalar::potassium_point_stearate] -
                                                            v[Scalar::potassium_point_myristate]) /
                                                               4 * (facts.carbons - 14)
                  : v[Scalar::potassium_point_oleate] + v.of(Table::concentrated_point, acid) -
                        v.of(Table::concentrated_point, FattyAcid::C18_1);
    const double krafft_potassium = std::min(krafft, out.concentrated_point[1][k]);
    out.dissolved_cold[0][k] = saturation(enthalpy, v[Scalar::cold_temperature], krafft);
    out.dissolved_cold[1][k] = saturation(enthalpy, v[Scalar::cold_temperature], krafft_potassium);
    out.dissolved_basin[0][k] = saturation(enthalpy, v[Scalar::basin_temperature], krafft);
    out.dissolved_basin[1][k] =
        saturation(enthalpy, v[Scalar::basin_temperature], krafft_potassium);

    const double micelle = v.of(Table::critical_micelle, acid);
    out.cover[k] = strength / (strength + micelle);
    if (facts.hydroxyls > 0) out.cover[k] *= v[Scalar::ricinoleate_cover];
    out.single_ions[k] = std::min(micelle, strength);
    out.refill[k] = out.single_ions[k] / (out.single_ions[k] + v[Scalar::refill]);

    const double melting = v.of(Table::melting_point, acid);
    out.stiff[k] = 1 - saturation(enthalpy, v[Scalar::basin_temperature], melting);
    // Soaps of C10 and shorter rinse off: nothing of them stays on the skin.
    out.mobile[k] =
        facts.carbons <= 10 ? 0 : saturation(enthalpy, v[Scalar::skin_temperature], melting);
    // Soaps of chains with one cis bond pass through a stiff, slimy gel on their way into water.
    const bool cis = facts.double_bonds >= 1 && facts.hydroxyls == 0 && acid != FattyAcid::C18_1t;
    // Cold, those of more bonds as well (judgement: no such soap foams sooner than a coconut one).
    out.gel_cold[k] = cis ? v[Scalar::gel_cold] : 1;
    out.gel_basin[k] = cis && facts.double_bonds == 1 ? v[Scalar::gel_warm] : 1;
    out.oxidisability[k] = oxidation(table, v, facts);
  }
  return out;
}

double bar_water(const ConstantValues& v, double lye_concentration, double days) {
  const auto poured = [&](double strength) {
    const double water = v[Scalar::alkali_per_oil] * (1 - strength) / strength;
    return water / (1 + v[Scalar::alkali_per_oil] + water);
  };
  // What a bar keeps for good follows from the water of the usual bar at the end of its cure.
  const double left = std::exp(-v[Scalar::reference_cure] / v[Scalar::drying_time]);
  const double kept =
      (v[Scalar::cured_water] - left * poured(v[Scalar::reference_lye])) / (1 - left);
  return kept + (poured(lye_concentration) - kept) * std::exp(-days / v[Scalar::drying_time]);
}

double drying_shift(const ConstantValues& v, double water) {
  const double cut = bar_water(v, v[Scalar::reference_lye], v[Scalar::reference_cut] / 24);
  return v[Scalar::cure_shift] * (cut - water) / (cut - v[Scalar::cured_water]);
}

AcidProfile crystalline(const ConstantValues& v, const Chains& chains, double shift,
                        double koh_share) {
  std::array<AcidProfile, 2> liquid{};
  for (std::size_t alkali = 0; alkali < 2; ++alkali) {
    if (alkali == 1 && koh_share == 0) break;
    for (std::size_t k = 0; k < core::kFattyAcidCount; ++k)
      liquid[alkali][k] =
          saturation(v.of(Table::melting_enthalpy, static_cast<FattyAcid>(k)),
                     v[Scalar::bar_temperature], chains.concentrated_point[alkali][k] + shift);
  }
  AcidProfile out = blend_alkali(liquid, koh_share);
  for (double& x : out) x = 1 - x;
  return out;
}

AcidProfile foam(const ConstantValues& v, const Chains& chains, double koh_share) {
  AcidProfile out = blend_alkali(chains.dissolved_basin, koh_share);
  const double floor = v[Scalar::foam_floor];
  for (std::size_t k = 0; k < out.size(); ++k)
    out[k] *= chains.cover[k] * chains.refill[k] * (floor + (1 - floor) * chains.stiff[k]);
  scale_to_100(out);
  return out;
}

AcidProfile first_foam(const Chains& chains, double koh_share) {
  AcidProfile out = blend_alkali(chains.dissolved_cold, koh_share);
  for (std::size_t k = 0; k < out.size(); ++k)
    out[k] *= chains.cover[k] * chains.refill[k] * chains.gel_cold[k];
  scale_to_100(out);
  return out;
}

AcidProfile irritancy(const ConstantValues& v, const Chains& chains, double koh_share) {
  AcidProfile out = blend_alkali(chains.dissolved_basin, koh_share);
  const double strength = v[Scalar::lather_strength];
  for (const AcidFacts& facts : core::acid_facts()) {
    const auto k = static_cast<std::size_t>(facts.acid);
    const double micelle = v.of(Table::critical_micelle, facts.acid);
    out[k] *= strength / (strength + micelle) * chains.single_ions[k];
  }
  const double poly = v[Scalar::polyunsaturated_irritancy];
  for (const AcidFacts& facts : core::acid_facts()) {
    const auto k = static_cast<std::size_t>(facts.acid);
    // C8 and shorter are set equal to C10: acids of C8 to C12 irritate most, the source says.
    if (facts.carbons < 10) out[k] = core::at(out, FattyAcid::C10_0);
    if (facts.double_bonds >= 2)
      out[k] = poly * (facts.carbons == 18 ? core::at(out, FattyAcid::C18_1) : out[k]);
  }
  scale_to_100(out);
  return out;
}

AcidProfile thickening(const ConstantValues& v, const Chains& chains, double koh_share) {
  AcidProfile out{};
  for (const AcidFacts& facts : core::acid_facts()) {
    const auto k = static_cast<std::size_t>(facts.acid);
    double crystal = 0;
    for (std::size_t alkali = 0; alkali < 2; ++alkali)
      crystal +=
          (alkali == 0 ? 1 - koh_share : koh_share) *
          (1 - saturation(v.of(Table::melting_enthalpy, facts.acid), v[Scalar::bench_temperature],
                          chains.concentrated_point[alkali][k]));
    out[k] = 1 + v[Scalar::thickening_crystal] * crystal;
    if (facts.carbons <= 12) out[k] += v[Scalar::thickening_short];
    if (facts.hydroxyls > 0) out[k] += v[Scalar::thickening_ricinoleic];
  }
  return out;
}

double free_fat_level(const ConstantValues& v, double superfat) {
  return 1 - std::exp(-std::max(0.0, superfat) / v[Scalar::free_fat_scale]);
}

}  // namespace barwright::targets
