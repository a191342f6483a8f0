#pragma once

#include <cmath>
#include <map>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "targets/model/model.hpp"
#include "tests/targets/model/model_profiles.hpp"

namespace barwright::targets::testing {

/// Returns a composition from percents of fatty acids by key.
inline Composition of_acids(const std::map<std::string, double>& percents) {
  Composition out;
  double sum = 0;
  for (const auto& [key, percent] : percents) {
    core::at(out.acids, core::find_acid(key).value()) = percent;
    sum += percent;
  }
  for (double& share : out.acids) share /= sum;
  return out;
}

/// Returns a fat of model_profiles.hpp.
inline Composition fat(const std::string& name) { return of_acids(profiles().at(name)); }

/// Returns a blend of them; figures are parts.
inline Composition blend(const std::vector<std::pair<std::string, double>>& parts) {
  std::vector<Composition> fats;
  std::vector<double> shares;
  double sum = 0;
  for (const auto& part : parts) sum += part.second;
  for (const auto& [name, share] : parts) {
    fats.push_back(fat(name));
    shares.push_back(share / sum);
  }
  return mix(fats, shares);
}

inline BarSettings superfat(double fraction) {
  BarSettings out;
  out.superfat = fraction;
  return out;
}

/// Returns a score at the model's central constants.
inline double score(Property property, const Composition& bar, const BarSettings& settings = {}) {
  return PropertyModel::embedded().value(property, bar, settings);
}

/// A blend's everyday stand-in.
inline Composition plain_bar() {
  return blend({{"olive", 40}, {"palm", 30}, {"coconut", 25}, {"castor", 5}});
}

/// Fixed-seed source of test blends.
class Dice {
 public:
  explicit Dice(unsigned long long seed) : bits_(seed) {}
  double unit() { return static_cast<double>(bits_() >> 11) * 0x1.0p-53; }
  double between(double low, double high) { return low + unit() * (high - low); }
  /// A random fat: few acids weigh much; now and then wax, free acid, unsaponifiables.
  Composition composition() {
    Composition out;
    double sum = 0;
    for (double& share : out.acids) sum += share = std::pow(unit(), 8);
    out.wax = unit() < 0.2 ? unit() : 0;
    for (double& share : out.acids) share *= (1 - out.wax) / sum;
    out.unsaponifiable = unit() < 0.5 ? 0.2 * unit() : 0;
    out.free_acid = unit() < 0.3 ? (1 - out.wax) * unit() : 0;
    return out;
  }
  BarSettings settings() {
    BarSettings out;
    out.superfat = between(0, 0.25);
    out.koh_share = unit() < 0.5 ? 0 : unit();
    out.lye_concentration = between(0.2, 0.5);
    out.sodium_lactate = unit() < 0.5 ? 0 : 0.04 * unit();
    out.cut_hours = between(4, 72);
    out.gelled = unit() < 0.5;
    out.cure_days = between(0, 365);
    return out;
  }

 private:
  std::mt19937_64 bits_;
};

}  // namespace barwright::targets::testing
