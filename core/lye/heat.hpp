#pragma once

#include "core/lye/alkali.hpp"
#include "core/units/figure.hpp"

namespace barwright::core {

/// A constant of heat with where it comes from; its unit stands in the name of its function.
struct HeatFigure {
  Span span;
  const char* source;
  Mark mark;
};

/// Return J/gK of oils, of lye near 33 %, of fresh batter; kJ per kg of fat that saponification
/// gives off; J/g that ice takes to melt.
const HeatFigure& oil_specific_heat();
const HeatFigure& lye_specific_heat();
const HeatFigure& batter_specific_heat();
const HeatFigure& saponification_heat();
const HeatFigure& ice_heat();

/// Returns C of lye at the moment it is made: heat balance of water, ice (0 C) and alkali (at
/// `room`) with the heat of solution, no loss. Masses in g; alkali is what is weighed.
double fresh_lye_celsius(Alkali alkali, double alkali_grams, double purity, double water_grams,
                         double water_celsius, double room_celsius, double ice_grams = 0);

/// How much of the water may be ice.
struct IcePlan {
  double ice_grams = 0;
  double liquid_grams = 0;     ///< never less than the alkali's own weight
  double peak_celsius = 0;     ///< with the ice
  double without_celsius = 0;  ///< with none
};
/// Returns the most ice that still leaves as much liquid water as alkali, so that flake dissolves
/// and does not crust on ice (judgement: 50 % is as strong as it may get on the way), in whole
/// grams; never more than brings the lye to `room`.
IcePlan ice_plan(Alkali alkali, double alkali_grams, double purity, double water_grams,
                 double water_celsius, double room_celsius);

/// Returns C of the batter as oils and lye meet: heat balance, no loss, nothing solid melting.
double batter_celsius(double oil_grams, double oil_celsius, double lye_grams, double lye_celsius);

/// Returns by how many C the batter warms if all its fat saponifies and no heat leaves.
double saponification_rise(double fat_grams, double batter_grams);

}  // namespace barwright::core
