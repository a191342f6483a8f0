#include "core/lye/rescue.hpp"

#include <algorithm>
#include <cmath>

namespace barwright::core {

namespace {

double fat_grams(const Pot& pot) {
  double grams = 0;
  for (const auto& fat : pot.fats) grams += fat.grams;
  return grams;
}

}  // namespace

bool meets(const PotCheck& check, const RescueGoal& goal) {
  return !check.nothing_left && check.superfat >= goal.superfat - 1e-9 &&
         check.band.low >= goal.never_below;
}

Pot with_fat(Pot pot, const PotFat& fat, double grams) {
  if (grams <= 0) return pot;
  pot.fats.push_back(fat);
  pot.fats.back().grams = grams;
  return pot;
}

Pot with_alkali(Pot pot, const PotAlkali& alkali, double grams, const Scales& scales) {
  if (grams <= 0) return pot;
  pot.alkali.push_back(alkali);
  pot.alkali.back().grams = grams;
  pot.alkali.back().error = scales.lye.error_grams();
  return pot;
}

std::optional<double> fat_to_add(const Pot& pot, const PotFat& fat, const RescueGoal& goal,
                                 const Scales& scales) {
  const auto good = [&](double grams) {
    return meets(check_pot(with_fat(pot, fat, grams), scales), goal);
  };
  if (good(0)) return 0.0;
  const double step = scales.oils.step;
  const auto most = static_cast<long>(std::ceil(std::max(2 * fat_grams(pot), 100.0) / step));
  if (!good(static_cast<double>(most) * step)) return std::nullopt;
  long low = 0, high = most;  // in steps: low is too little, high enough
  while (high - low > 1) {
    const long middle = low + (high - low) / 2;
    (good(static_cast<double>(middle) * step) ? high : low) = middle;
  }
  return static_cast<double>(high) * step;
}

double alkali_to_add(const Pot& pot, const PotAlkali& alkali, const RescueGoal& goal,
                     const Scales& scales) {
  const auto good = [&](double grams) {
    return meets(check_pot(with_alkali(pot, alkali, grams, scales), scales), goal);
  };
  const double step = scales.lye.step;
  if (!good(step)) return 0;
  // In steps: low is safe; high is not, since no fat takes its own weight of alkali.
  long low = 1, high = static_cast<long>(fat_grams(pot) / step) + 2;
  while (high - low > 1) {
    const long middle = low + (high - low) / 2;
    (good(static_cast<double>(middle) * step) ? low : high) = middle;
  }
  return static_cast<double>(low) * step;
}

}  // namespace barwright::core
