#pragma once

#include <cstdint>
#include <random>
#include <string>

#include "core/lye/recipe.hpp"

// Fats and requests the tests share. Saponification values in mg KOH/g.
namespace barwright::tests {

inline core::PotFat fat(const std::string& name, double grams, double low, double typical,
                        double high, double unsaponifiable = 0.005) {
  core::PotFat out;
  out.name = name;
  out.grams = grams;
  out.saponification_value = {low, typical, high};
  out.unsaponifiable = unsaponifiable;
  out.mark = core::Mark::read;
  return out;
}

// Ranges: CXS 210-1999 for coconut (248-265, read); the others recalled or computed.
inline core::PotFat coconut(double grams) { return fat("coconut", grams, 248, 256, 265); }
inline core::PotFat olive(double grams) { return fat("olive", grams, 184, 190, 196, 0.01); }
inline core::PotFat palm(double grams) { return fat("palm", grams, 190, 198, 209); }
inline core::PotFat castor(double grams) { return fat("castor", grams, 176, 181, 187); }
inline core::PotFat shea(double grams) { return fat("shea butter", grams, 160, 179, 195, 0.06); }

inline core::Scales fine_scales() {
  core::Scales scales;
  scales.oils.step = 1;
  scales.lye.step = 0.1;
  return scales;
}

/// 1000 g of olive, coconut and castor at the defaults.
inline core::RecipeRequest plain_request() {
  core::RecipeRequest request;
  request.oils = {olive(600), coconut(300), castor(100)};
  request.scales = fine_scales();
  return request;
}

/// Our own mapping of bits to doubles: std distributions differ between libraries.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : bits_(seed) {}
  double unit() { return static_cast<double>(bits_() >> 11U) * 0x1.0p-53; }
  double between(double low, double high) { return low + (high - low) * unit(); }
  int whole(int low, int high) {
    return low + static_cast<int>(bits_() % static_cast<std::uint64_t>(high - low + 1));
  }
  bool coin() { return (bits_() & 1U) != 0; }

 private:
  std::mt19937_64 bits_;
};

}  // namespace barwright::tests
