#pragma once

#include <vector>

#include "core/lye.hpp"

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
  SuperfatBand band;          ///< worst and best case, as in Lye
  bool nothing_left = false;  ///< no saponifiable fat at all
  bool lye_heavy() const { return nothing_left || superfat < 0; }
};

/// Returns the superfat that these fats, acids and alkali give, with its band: 1 - (alkali - used
/// by acids) / alkali that the fat needs; the worst case as lye_for() judges it, the alkali's own
/// errors apart. Nothing is dosed here. Errors: Refusal for a weight that is none.
PotCheck check_pot(const Pot& pot, const Scales& scales);

}  // namespace barwright::core
