#pragma once

#include <optional>

#include "core/chemistry/alkali.hpp"
#include "core/units/figure.hpp"

namespace barwright::core {

/// A constant of heat with where it comes from; its unit stands in the name of its function.
struct HeatFigure {
  Span span;
  const char* source;
  Mark mark;
};

/// Return J/gK of oils, of lye near 33 %, of fresh batter; kJ per kg of fat that saponification
/// gives off; J/g that ice takes to melt; kJ per mol of alkali that an acid gives off with it; J/g
/// that sugar gives off as lye breaks it down.
const HeatFigure& oil_specific_heat();
const HeatFigure& lye_specific_heat();
const HeatFigure& batter_specific_heat();
const HeatFigure& saponification_heat();
const HeatFigure& ice_heat();
const HeatFigure& neutralisation_heat();
const HeatFigure& sugar_heat();

/// Returns how far lye of this strength (mass fraction) heats itself at most as it is made, C: heat
/// of solution at that dilution over lye_specific_heat(), no loss (recalled).
double self_heating_celsius(Alkali alkali, double concentration);

/// What goes into a jug of lye.
struct LyeMix {
  Alkali alkali = Alkali::sodium_hydroxide;
  double alkali_grams = 0;  ///< as weighed, impurities too; as warm as the room
  double purity = 1;        ///< fraction of those grams
  double water_grams = 0;   ///< ice included
  double ice_grams = 0;     ///< of the water, at 0 C
  double water_celsius = 0;
  double room_celsius = 0;
  double acid_moles = 0;   ///< of alkali that acids in the water use up
  double sugar_grams = 0;  ///< dissolved in the water
};

/// Returns C of lye at the moment it is made: heat balance of water, ice and alkali with the heat
/// of solution, of acids and of sugar, no loss.
double fresh_lye_celsius(const LyeMix& mix);

/// How much of the water may be ice.
struct IcePlan {
  double ice_grams = 0;
  double liquid_grams = 0;     ///< never less than the alkali's own weight
  double peak_celsius = 0;     ///< with the ice
  double without_celsius = 0;  ///< with none
};
/// Returns the most ice that still leaves as much liquid water as alkali, so that flake dissolves
/// and does not crust on ice (judgement: 50 % is as strong as it may get on the way), in whole
/// grams; never more than brings the lye to the room, nor than the `plain_water` there is to freeze
/// (g; all of the mix's water where not said). The mix's own ice is not looked at.
IcePlan ice_plan(const LyeMix& mix, std::optional<double> plain_water = {});

/// A pot of something at one temperature.
struct WarmPot {
  double grams = 0;
  double celsius = 0;
};

/// Returns C of the batter as oils and lye meet: heat balance, no loss, nothing solid melting.
double batter_celsius(const WarmPot& oils, const WarmPot& lye);

/// Returns by how many C the batter warms if all its fat saponifies and no heat leaves.
double saponification_rise(double fat_grams, double batter_grams);

}  // namespace barwright::core
