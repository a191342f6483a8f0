#pragma once

#include <array>
#include <vector>

#include "targets/model/composition.hpp"

namespace barwright::targets {

/// What of a recipe, beside the blend, the properties depend on.
struct BarSettings {
  double superfat = 0.05;  ///< fraction of the saponifiable fat left as fat
  double koh_share = 0;    ///< fraction of the alkali, by moles, that is potassium hydroxide
  double lye_concentration = 0.33;  ///< g alkali per g of lye
  double sodium_lactate = 0;        ///< g dry sodium lactate per g of oils
  double cut_hours = 24;            ///< h from pouring to cutting; cut-firmness is scored then
  bool gelled = false;              ///< whether the bar gels in the mould
  double cure_days = 42;            ///< age in days that hardness is scored at
  double salt = 0;                  ///< g salt per g of oils
  auto operator<=>(const BarSettings&) const = default;
};

/// A weight per component, and per oil by its number (none beyond the end) what the oil adds that
/// its acids do not say.
struct Weights : std::array<double, kComponentCount> {
  std::vector<double> own = {};
};

/// Returns weights . components of a composition, and what its oils add.
double weigh(const Weights& weights, const Composition& composition);

/// weight * min(slope . c, cap), c = components(): a bend in a property.
struct Bend {
  double weight = 0;
  Weights slope{};
  double cap = 0;
};

/// A property as the search sees it: value = scale(inner(c)), with
/// inner(c) = constant + linear . c + sum of bends, and scale monotone (rising or falling).
struct PropertyForm {
  double constant = 0;
  Weights linear{};
  std::vector<Bend> bends;
  /// Monotone outer scale. `identity` for most; keeping: 100/(1+u/half), falling in u.
  enum class Scale { identity, keeping } scale = Scale::identity;
  double scale_parameter = 0;

  double inner(const Composition& composition) const;
  double outer(double u) const;  ///< the scale
  /// Returns u with outer(u) = value; of `keeping`, values below 0.01 count as 0.01.
  double inverse(double value) const;
  bool rising() const;  ///< whether the scale rises with u
};

}  // namespace barwright::targets
