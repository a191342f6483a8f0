#include "core/lye/solubility.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace barwright::core {

namespace {

// All recalled (kCrystalCurveSource). Rounded so that lye looks rather less soluble than it is.
constexpr auto kNaoh = std::to_array<FirstCrystals>({
    {0.00, 0, "ice"},
    {0.10, -10, "ice"},
    {0.19, -28, "ice"},
    {0.25, -15, "sodium hydroxide hydrate"},
    {0.30, 1, "sodium hydroxide hydrate (4 H2O)"},
    {0.32, 5, "sodium hydroxide hydrate (4 H2O)"},
    {0.35, 10, "sodium hydroxide hydrate (3.5 H2O)"},
    {0.388, 15.6, "sodium hydroxide hydrate (3.5 H2O)"},
    {0.42, 13, "sodium hydroxide hydrate (3.5 H2O)"},
    {0.455, 5, "sodium hydroxide hydrate (3.5 H2O)"},
    {0.50, 14, "sodium hydroxide hydrate (1 H2O)"},
    {0.522, 20, "sodium hydroxide hydrate (1 H2O)"},
    {0.543, 30, "sodium hydroxide hydrate (1 H2O)"},
    {0.563, 40, "sodium hydroxide hydrate (1 H2O)"},
    {0.592, 50, "sodium hydroxide hydrate (1 H2O)"},
    {0.69, 65, "sodium hydroxide hydrate (1 H2O)"},
});

constexpr auto kKoh = std::to_array<FirstCrystals>({
    {0.00, 0, "ice"},
    {0.20, -20, "ice"},
    {0.31, -65, "ice"},
    {0.45, -25, "potassium hydroxide hydrate (4 H2O)"},
    {0.492, 0, "potassium hydroxide hydrate (2 H2O)"},
    {0.508, 10, "potassium hydroxide hydrate (2 H2O)"},
    {0.528, 20, "potassium hydroxide hydrate (2 H2O)"},
    {0.558, 30, "potassium hydroxide hydrate (2 H2O)"},
    {0.575, 40, "potassium hydroxide hydrate (1 H2O)"},
    {0.584, 50, "potassium hydroxide hydrate (1 H2O)"},
    {0.64, 100, "potassium hydroxide hydrate (1 H2O)"},
});

struct Salt {
  double naoh;   ///< mass fraction
  double grams;  ///< NaCl per 100 g of clear solution
};

// Recalled, 20 C, brine and caustic handbooks.
constexpr auto kSalt = std::to_array<Salt>(
    {{0.00, 26.4}, {0.10, 18.0}, {0.20, 10.4}, {0.30, 4.3}, {0.40, 1.8}, {0.50, 1.0}});

double mix(double a, double b, double t) { return a + (b - a) * t; }

}  // namespace

std::span<const FirstCrystals> crystal_curve(Alkali alkali) {
  if (alkali == Alkali::sodium_hydroxide) return kNaoh;
  return kKoh;
}

double first_crystals_celsius(Alkali alkali, double concentration) {
  const auto curve = crystal_curve(alkali);
  if (concentration <= 0) return curve.front().celsius;
  for (std::size_t i = 1; i < curve.size(); ++i) {
    const auto& a = curve[i - 1];
    const auto& b = curve[i];
    if (concentration <= b.concentration) {
      return mix(a.celsius, b.celsius,
                 (concentration - a.concentration) / (b.concentration - a.concentration));
    }
  }
  return INFINITY;
}

double strongest_clear(Alkali alkali, double celsius) {
  const auto curve = crystal_curve(alkali);
  // Start at the coldest point, where ice gives way to hydrates, and climb.
  auto at = std::min_element(
      curve.begin(), curve.end(),
      [](const FirstCrystals& a, const FirstCrystals& b) { return a.celsius < b.celsius; });
  if (celsius < at->celsius) return 0;
  for (; at + 1 != curve.end(); ++at) {
    const auto next = at + 1;
    if (next->celsius > celsius) {
      return mix(at->concentration, next->concentration,
                 (celsius - at->celsius) / (next->celsius - at->celsius));
    }
  }
  return curve.back().concentration;
}

double salt_solubility(double naoh_concentration) {
  if (naoh_concentration <= 0) return kSalt.front().grams;
  for (std::size_t i = 1; i < kSalt.size(); ++i) {
    const auto& a = kSalt[i - 1];
    const auto& b = kSalt[i];
    if (naoh_concentration <= b.naoh) {
      return mix(a.grams, b.grams, (naoh_concentration - a.naoh) / (b.naoh - a.naoh));
    }
  }
  return kSalt.back().grams;
}

}  // namespace barwright::core
