#pragma once

#include <array>
#include <cstddef>

#include "targets/model/constants.hpp"

namespace barwright::targets {

/// What the constants give for each chain, before superfat, potash share and water come in.
/// Where two columns stand, [0] is the sodium and [1] the potassium soap.
struct Chains {
  std::array<core::AcidProfile, 2> concentrated_point{};  ///< C, where the wet soap turns liquid
  std::array<core::AcidProfile, 2> dissolved_cold{};      ///< saturation fraction, cold tap, 0..1
  std::array<core::AcidProfile, 2> dissolved_basin{};     ///< the same in warm washing water
  core::AcidProfile cover{};          ///< share of the film an ion can cover, 0..1
  core::AcidProfile single_ions{};    ///< free single ions in a lather, mM
  core::AcidProfile refill{};         ///< how far they keep up with a stretching film, 0..1
  core::AcidProfile stiff{};          ///< share of the film condensed at basin temperature, 0..1
  core::AcidProfile mobile{};         ///< mobility of the residue at skin temperature, 0..1
  core::AcidProfile gel_cold{};       ///< share of the surface that dissolves, not gels, cold
  core::AcidProfile gel_basin{};      ///< the same warm
  core::AcidProfile oxidisability{};  ///< oleate = 1
};

/// Returns the chain figures that follow from the constants.
Chains derive_chains(const ConstantTable& table, const ConstantValues& values);

/// Returns the fraction, 0..1, at which an ideal liquid of other chains is saturated with a chain
/// of melting enthalpy `enthalpy` (kJ/mol) that melts at `point`, at `temperature` (both C):
/// Schroeder and van Laar, min(1, exp[-(H/R)(1/T - 1/T*)]).
double saturation(double enthalpy, double temperature, double point);

/// Returns sodium and potassium mixed by the potash share (moles).
core::AcidProfile blend_alkali(const std::array<core::AcidProfile, 2>& both, double koh_share);

/// Returns the water in a bar, g per g of bar, `days` after it was poured, made with lye of this
/// strength (g/g): exponential drying from what goes in to what a cured bar keeps.
double bar_water(const ConstantValues& values, double lye_concentration, double days);

/// Returns how far (C) drying from its state at the usual cutting has raised the temperature at
/// which the soap of a bar with this much water stops being crystalline.
double drying_shift(const ConstantValues& values, double water);

/// Returns the crystalline share, 0..1, of each chain's soap in a bar at room temperature.
core::AcidProfile crystalline(const ConstantValues& values, const Chains& chains, double shift,
                              double koh_share);

/// Returns foam (warm) and first foam (cold) of each chain, 0..100, the best chain at 100.
core::AcidProfile foam(const ConstantValues& values, const Chains& chains, double koh_share);
core::AcidProfile first_foam(const Chains& chains, double koh_share);

/// Returns the irritancy of each chain's soap, 0..100, the worst chain at 100.
core::AcidProfile irritancy(const ConstantValues& values, const Chains& chains, double koh_share);

/// Returns the pace at which each chain thickens a batter, oleate about 1.
core::AcidProfile thickening(const ConstantValues& values, const Chains& chains, double koh_share);

/// Returns 1 - exp(-superfat / scale): how far the effect of free fat has come, 0..1.
double free_fat_level(const ConstantValues& values, double superfat);

}  // namespace barwright::targets
