#pragma once

#include <optional>
#include <string>

#include "core/lye/acid.hpp"
#include "core/lye/into.hpp"
#include "core/units/figure.hpp"

namespace barwright::core {

/// Whatever is neither a fat of the blend, an alkali nor a plain acid: water-bearing liquids (milk,
/// tea, beer), sodium lactate, salt, sugar, clay, scent. Fractions are of its own mass; what they
/// do not name is inert dry matter.
struct Addition {
  std::string name;
  double grams = 0;
  Into into = Into::trace;
  double water = 0;
  double fat = 0;                   ///< its fat counts in the lye pot like any other
  Span fat_saponification_value{};  ///< mg KOH/g, needed when fat > 0
  double sugar = 0;
  double alcohol = 0;
  double salt = 0;             ///< sodium chloride
  std::optional<Acid> acid{};  ///< grams there are per gram of the addition
  bool frozen = false;         ///< goes in as ice or slush
  /// What hurts if it is not done before it meets the lye, a whole sentence; may be empty.
  std::string caution{};
};

/// Sodium lactate as sold. Its water counts, but joins the cooled lye; the salt itself uses no
/// alkali.
Addition sodium_lactate_syrup(double grams, double strength = 0.60);
Addition sodium_lactate_powder(double grams);
/// Whole cow's milk (3.5 % fat, 4.8 % lactose, 87.5 % water: recalled, usual food table figures).
Addition whole_milk(double grams);

/// What more than a trace is of fat, sugar or alcohol that meets the lye, fraction (judgement).
inline constexpr double kTraceOfIt = 0.005;
/// Returns whether there is more than a trace of sugar or fat in it, which scorch in hot lye.
bool scorches(const Addition& addition);
/// Returns the acid that so many grams of it bring, in grams; nothing where it brings none.
std::optional<Acid> acid_of(const Addition& addition, double grams);

/// Errors: Refusal for fractions out of range, fat without a saponification value, alcohol in the
/// lye (it boils up), fat there unless frozen or into the cooled lye, syrups in the cooled lye.
/// Sugar without fat may stand in the water before the alkali.
void check(const Addition& addition);

}  // namespace barwright::core
