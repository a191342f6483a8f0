#include "targets/model/mixing.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace barwright::targets {

double soluble_share(const core::AcidProfile& acids, const core::AcidProfile& limits) {
  // sum min(x, S a) - S is concave in S and 0 at 0; Newton's steps from the right walk down its
  // straight pieces to its last root, which they reach after at most one step per acid.
  double share = std::min(1.0, std::accumulate(acids.begin(), acids.end(), 0.0));
  for (std::size_t step = 0; step <= acids.size(); ++step) {
    double full = 0, slope = 0;
    for (std::size_t k = 0; k < acids.size(); ++k) {
      if (acids[k] <= limits[k] * share)
        full += acids[k];
      else
        slope += limits[k];
    }
    if (full + slope * share >= share || slope >= 1) return share;
    share = full / (1 - slope);
  }
  return share;
}

double liquidus(const ConstantValues& v, const core::AcidProfile& acids) {
  constexpr double kGasConstant = 8.314462618, kIceKelvin = 273.15, kNone = -99;
  core::AcidProfile moles{};
  double total = 0;
  for (std::size_t k = 0; k < acids.size(); ++k) {
    moles[k] = acids[k] / core::molar_mass(static_cast<core::FattyAcid>(k));
    total += moles[k];
  }
  if (!(total > 0)) return kNone;
  const auto setting = [&](double fraction, double enthalpy, double melting) {
    if (fraction <= 1e-6) return kNone;
    return 1 / (1 / (melting + kIceKelvin) -
                kGasConstant * std::log(fraction) / (enthalpy * 1000)) -
           kIceKelvin;
  };
  double best = kNone;
  for (std::size_t k = 0; k < acids.size(); ++k) {
    const auto acid = static_cast<core::FattyAcid>(k);
    best = std::max(best, setting(moles[k] / total, v.of(Table::melting_enthalpy, acid),
                                  v.of(Table::melting_point, acid)));
  }
  using enum core::FattyAcid;
  const double joint = core::at(moles, C16_0) + core::at(moles, C18_0);
  if (joint > 0) {
    const double w = core::at(moles, C18_0) / joint;
    const auto between = [&](Table table) {
      return (1 - w) * v.of(table, C16_0) + w * v.of(table, C18_0);
    };
    const double dip = 4 * v[Scalar::palmitic_stearic_dip] * w * (1 - w);
    best = std::max(best, setting(joint / total, between(Table::melting_enthalpy),
                                  between(Table::melting_point) - dip));
  }
  return best;
}

double titre_offset(const ConstantTable& table, const ConstantValues& values) {
  double sum = 0;
  for (const PrintedTitre& titre : table.titres)
    sum += titre.printed - liquidus(values, titre.acids);
  return sum / static_cast<double>(table.titres.size());
}

}  // namespace barwright::targets
