#include "core/lye/heat.hpp"

#include <algorithm>
#include <cmath>

#include "core/lye/lye.hpp"
#include "core/lye/lye_strength.hpp"

namespace barwright::core {

namespace {
constexpr double kWaterHeat = 4.19;   // J/gK, usual tables
constexpr double kAlkaliHeat = 1.49;  // J/gK, solid sodium hydroxide, recalled
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

double fresh_lye_celsius(Alkali alkali, double alkali_grams, double purity, double water_grams,
                         double water_celsius, double room_celsius, double ice_grams) {
  const double total = alkali_grams + water_grams;
  if (!(total > 0) || !(alkali_grams > 0)) return water_celsius;
  const double heat = self_heating_celsius(alkali, alkali_grams * purity / total) *
                      lye_specific_heat().span.typical * total;
  const double brought = (water_grams - ice_grams) * kWaterHeat * water_celsius +
                         alkali_grams * kAlkaliHeat * room_celsius -
                         ice_grams * ice_heat().span.typical;
  const double capacity = water_grams * kWaterHeat + alkali_grams * kAlkaliHeat;
  // Start from the mix as it is, then add the heat of solution over the lye's own capacity.
  return brought / capacity + heat / (lye_specific_heat().span.typical * total);
}

IcePlan ice_plan(Alkali alkali, double alkali_grams, double purity, double water_grams,
                 double water_celsius, double room_celsius) {
  IcePlan plan;
  plan.without_celsius =
      fresh_lye_celsius(alkali, alkali_grams, purity, water_grams, water_celsius, room_celsius);
  const double most = std::max(0.0, std::floor(water_grams - alkali_grams));
  const auto peak = [&](double ice) {
    return fresh_lye_celsius(alkali, alkali_grams, purity, water_grams, water_celsius, room_celsius,
                             ice);
  };
  plan.ice_grams = most;
  if (peak(most) < room_celsius) {
    double low = 0, high = most;
    for (int step = 0; step < 50; ++step) {
      const double middle = (low + high) / 2;
      (peak(middle) < room_celsius ? high : low) = middle;
    }
    plan.ice_grams = std::floor(low);
  }
  plan.liquid_grams = water_grams - plan.ice_grams;
  plan.peak_celsius = peak(plan.ice_grams);
  return plan;
}

double batter_celsius(double oil_grams, double oil_celsius, double lye_grams, double lye_celsius) {
  const double oil = oil_grams * oil_specific_heat().span.typical;
  const double lye = lye_grams * lye_specific_heat().span.typical;
  return (oil * oil_celsius + lye * lye_celsius) / (oil + lye);
}

double saponification_rise(double fat_grams, double batter_grams) {
  if (!(batter_grams > 0)) return 0;
  return fat_grams * saponification_heat().span.typical /
         (batter_grams * batter_specific_heat().span.typical);
}

}  // namespace barwright::core
