#include "core/chemistry/heat.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/chemistry/table.hpp"

namespace barwright::core {

namespace {
constexpr double kWaterHeat = 4.19;   // J/gK, usual tables
constexpr double kAlkaliHeat = 1.49;  // J/gK, solid sodium hydroxide, recalled

/// -kJ/mol given off on dissolving, by moles of water per mole of alkali; recalled, NaOH.
constexpr auto kNaohHeat =
    std::to_array<TablePoint>({{3, 28.9}, {4, 34.4}, {5, 37.8}, {10, 42.5}, {200, 44.5}});
constexpr double kKohOverNaoh = 57.6 / 44.5;  // ratio at infinite dilution, read (secondary)

}  // namespace

const HeatFigure& oil_specific_heat() {
  static const HeatFigure figure{
      {1.9, 2.0, 2.2}, "J. Am. Oil Chem. Soc. 77 (2000) 1001, range of oils", Mark::recalled};
  return figure;
}
const HeatFigure& lye_specific_heat() {
  static const HeatFigure figure{
      {3.4, 3.5, 3.7}, "caustic soda handbooks, 30 to 33 %", Mark::recalled};
  return figure;
}
const HeatFigure& batter_specific_heat() {
  static const HeatFigure figure{{2.3, 2.5, 2.8}, "between oil, lye and soap", Mark::judgement};
  return figure;
}
const HeatFigure& saponification_heat() {
  static const HeatFigure figure{{250, 270, 290}, "no stored source", Mark::recalled};
  return figure;
}
const HeatFigure& ice_heat() {
  static const HeatFigure figure{
      {333, 334, 334}, "enthalpy of fusion of water, usual tables", Mark::recalled};
  return figure;
}

const HeatFigure& neutralisation_heat() {
  // Strong acids give off 55.8; weak ones a little less, and crystals take some up as they
  // dissolve.
  static const HeatFigure figure{{50, 56, 58}, "usual tables, strong acid", Mark::recalled};
  return figure;
}
const HeatFigure& sugar_heat() {
  static const HeatFigure figure{
      {100, 500, 1000}, "makers' lye with sugar runs some C hotter", Mark::judgement};
  return figure;
}

double self_heating_celsius(Alkali alkali, double concentration) {
  if (concentration <= 0) return 0;
  const double moles = concentration / molar_mass(alkali);  // per g of lye
  const double water = (1 - concentration) / 18.015 / moles;
  double heat = read_table(kNaohHeat, water);
  if (alkali == Alkali::potassium_hydroxide) heat *= kKohOverNaoh;
  return moles * heat * 1000 / lye_specific_heat().span.typical;
}

double fresh_lye_celsius(const LyeMix& mix) {
  const double total = mix.alkali_grams + mix.water_grams;
  if (!(total > 0) || !(mix.alkali_grams > 0)) return mix.water_celsius;
  const double brought = (mix.water_grams - mix.ice_grams) * kWaterHeat * mix.water_celsius +
                         mix.alkali_grams * kAlkaliHeat * mix.room_celsius -
                         mix.ice_grams * ice_heat().span.typical;
  const double capacity = mix.water_grams * kWaterHeat + mix.alkali_grams * kAlkaliHeat;
  // The mix as it is, and what dissolving adds.
  return brought / capacity +
         self_heating_celsius(mix.alkali, mix.alkali_grams * mix.purity / total) +
         (mix.acid_moles * neutralisation_heat().span.typical * 1000 +
          mix.sugar_grams * sugar_heat().span.typical) /
             (total * lye_specific_heat().span.typical);
}

IcePlan ice_plan(const LyeMix& mix, std::optional<double> plain_water) {
  IcePlan plan;
  auto peak = [iced = mix](double ice) mutable {
    iced.ice_grams = ice;
    return fresh_lye_celsius(iced);
  };
  plan.without_celsius = peak(0);
  const double most = std::max(0.0, std::floor(std::min(mix.water_grams - mix.alkali_grams,
                                                        plain_water.value_or(mix.water_grams))));
  plan.ice_grams = most;
  if (peak(most) < mix.room_celsius) {
    double low = 0, high = most;
    for (int step = 0; step < 50; ++step) {
      const double middle = (low + high) / 2;
      (peak(middle) < mix.room_celsius ? high : low) = middle;
    }
    plan.ice_grams = std::floor(low);
  }
  plan.liquid_grams = mix.water_grams - plan.ice_grams;
  plan.peak_celsius = peak(plan.ice_grams);
  return plan;
}

double batter_celsius(const WarmPot& oils, const WarmPot& lye) {
  const double oil_heat = oils.grams * oil_specific_heat().span.typical;
  const double lye_heat = lye.grams * lye_specific_heat().span.typical;
  return (oil_heat * oils.celsius + lye_heat * lye.celsius) / (oil_heat + lye_heat);
}

double saponification_rise(double fat_grams, double batter_grams) {
  if (!(batter_grams > 0)) return 0;
  return fat_grams * saponification_heat().span.typical /
         (batter_grams * batter_specific_heat().span.typical);
}

}  // namespace barwright::core
