#pragma once

#include "core/chemistry/heat.hpp"

namespace barwright::core {

/// A filled mould as far as heat goes.
struct Poured {
  double fat_grams = 0;       ///< in one mould
  double batter_grams = 0;    ///< in one mould
  double volume_ml = 0;       ///< of that batter
  double surface_cm2 = 0;     ///< all its sides; 0: a cube of this volume
  double batter_celsius = 0;  ///< as poured
  double room_celsius = 20;
  double lye_concentration = 0.33;
  bool covered = false;  ///< insulated
};

enum class Gel { no, maybe, yes };
const char* word(Gel gel);

/// What the middle of the mould does.
struct GelOutlook {
  Gel gel = Gel::no;
  double gel_celsius = 0;   ///< where this batter turns to gel: wetter batters at less
  double peak_celsius = 0;  ///< hottest, central figures
  double peak_low = 0, peak_high = 0;
  double peak_hours = 0;   ///< when, after pouring
  double ready_hours = 0;  ///< when the middle is within 3 C of the room for good
};

/// Returns C at which soap of this lye strength turns to gel: 80 at 40 % lye, 60 at 25 %, between
/// them a line (common practice 60 to 80 C, wetter gels lower, no source).
double gel_celsius(double lye_concentration);

/// Returns the outlook by a lumped heat balance: heat of saponification released at a rate that
/// doubles every 10 C (4 h at 40 C, speeding up as soap forms: judgement), lost through the sides
/// (5 W/m2K bare, 1.5 covered: judgement). `no` and `yes` hold when rate and loss are off by 1.3
/// times either way; else `maybe`.
GelOutlook gel_outlook(const Poured& poured);

/// Returns C of the middle these hours after pouring, central figures.
double poured_celsius(const Poured& poured, double hours);

}  // namespace barwright::core
