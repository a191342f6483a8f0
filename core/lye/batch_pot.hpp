#pragma once

#include <vector>

#include "core/lye/lye.hpp"

namespace barwright::core {

/// Alkali that is in the pot, or about to be.
struct PotAlkali {
  Alkali alkali = Alkali::sodium_hydroxide;
  double grams = 0;  ///< as weighed, not pure
  Strength strength{};
  double error = 0;  ///< g of this product it may be off by, whichever way it was weighed
};

/// What meets in one pot, whatever was meant to.
struct Pot {
  std::vector<PotFat> fats;
  std::vector<Acid> acids;
  std::vector<PotAlkali> alkali;
};

/// The superfat of a pot as it stands.
struct PotCheck {
  double superfat = 0;        ///< nominal, fraction; below 0: free alkali
  SuperfatBand band;          ///< worst and best case
  bool nothing_left = false;  ///< no saponifiable fat at all; the superfats are then -1
  double need_moles = 0;      ///< alkali that all saponifiable fat needs, mol (typical)
  double dosed_moles = 0;     ///< alkali weighed, at its stated strength, mol
  double acid_moles = 0;      ///< of it used up by acids, mol
  double most_moles = 0;      ///< the most that may be available to fat, mol
  /// Whether free alkali can be left: judged by the worst case, never by the nominal superfat.
  bool lye_heavy() const { return nothing_left || band.low < 0; }
};

/// Returns the superfat that these fats, acids and alkali give, with its band: 1 - (alkali - used
/// by acids) / alkali that the fat needs. The one judge of every pot, planned, weighed or gone
/// wrong: worst case from the least saponification values, the weights' errors and the strongest
/// alkali. Nothing is dosed here. Errors: Refusal for a weight that is none, impossible acids.
PotCheck check_pot(const Pot& pot, const Scales& scales);

/// Returns what is left if one line of this pot is forgotten: fats first, then acids.
std::vector<Forgotten> if_forgotten(const Pot& pot, const Scales& scales);

}  // namespace barwright::core
