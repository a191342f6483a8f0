#include "core/chemistry/solubility.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "core/chemistry/table.hpp"

namespace barwright::core {

namespace {

/// Where a cooling lye shows its first crystals.
struct FirstCrystals {
  double strength;  ///< mass fraction
  double celsius;
};

// From the coldest point, where ice gives way to hydrates, up. All recalled of Seidell,
// Solubilities of Inorganic Compounds, and makers' caustic soda handbooks; rounded so that lye
// looks rather less soluble than it is.
constexpr auto kNaoh = std::to_array<FirstCrystals>(
    {{0.19, -28},
     {0.25, -15},
     {0.30, 1},  // with 4 H2O
     {0.32, 5},
     {0.35, 10},  // with 3.5 H2O
     {0.388, 15.6},
     // Between these two it dips to 5 C: never the answer, for what is weaker would crystallise.
     {0.50, 14},  // with 1 H2O
     {0.522, 20},
     {0.543, 30},
     {0.563, 40},
     {0.592, 50},
     {0.69, 65}});

constexpr auto kKoh = std::to_array<FirstCrystals>({{0.31, -65},
                                                    {0.45, -25},  // with 4 H2O
                                                    {0.492, 0},   // with 2 H2O
                                                    {0.508, 10},
                                                    {0.528, 20},
                                                    {0.558, 30},
                                                    {0.575, 40},  // with 1 H2O
                                                    {0.584, 50},
                                                    {0.64, 100}});

// g NaCl per 100 g of clear solution, by mass fraction of NaOH. Recalled, 20 C, brine and caustic
// handbooks.
constexpr auto kSalt = std::to_array<TablePoint>(
    {{0.00, 26.4}, {0.10, 18.0}, {0.20, 10.4}, {0.30, 4.3}, {0.40, 1.8}, {0.50, 1.0}});

}  // namespace

double strongest_clear(Alkali alkali, double celsius) {
  const auto curve = alkali == Alkali::sodium_hydroxide ? std::span<const FirstCrystals>(kNaoh)
                                                        : std::span<const FirstCrystals>(kKoh);
  const auto above = std::find_if(curve.begin(), curve.end(), [&](const FirstCrystals& point) {
    return point.celsius >= celsius;
  });
  if (above == curve.begin()) return 0;
  if (above == curve.end()) return curve.back().strength;
  const auto below = std::prev(above);
  return std::lerp(below->strength, above->strength,
                   (celsius - below->celsius) / (above->celsius - below->celsius));
}

double salt_solubility(double naoh_concentration) { return read_table(kSalt, naoh_concentration); }

}  // namespace barwright::core
