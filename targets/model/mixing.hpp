#pragma once

#include "targets/model/constants.hpp"

namespace barwright::targets {

/// Returns the most S, 0..1, with sum over acids of min(x_k, S a_k) >= S: the share of a soap that
/// dissolves in plenty of water, pure crystals of each chain standing against one ideal micelle of
/// all. `acids` are mass fractions of the fat, `limits` the saturation fractions a_k.
double soluble_share(const core::AcidProfile& acids, const core::AcidProfile& limits);

/// Returns the titre, C, of mixed fatty acids before the fitted offset: the highest liquidus among
/// the saturates, palmitic and stearic acid also tried as one joint crystal. Ideal solution
/// (Schroeder and van Laar) over mole fractions. Without any acid: -99.
double liquidus(const ConstantValues& values, const core::AcidProfile& acids);

/// Returns the offset, C, that fits liquidus() to the printed titres: their mean difference.
double titre_offset(const ConstantTable& table, const ConstantValues& values);

}  // namespace barwright::targets
