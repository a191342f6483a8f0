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
};

/// Sodium lactate as sold. Its water counts, but joins the cooled lye; the salt itself uses no
/// alkali.
Addition sodium_lactate_syrup(double grams, double strength = 0.60);
Addition sodium_lactate_powder(double grams);
/// Whole cow's milk (3.5 % fat, 4.8 % lactose, 87.5 % water: recalled, usual food table figures).
Addition whole_milk(double grams);

/// Errors: Refusal for fractions out of range, fat without a saponification value, and sugar, milk
/// or alcohol as a lye liquid (sugar scorches and boils lye over; frozen is accepted for sugar and
/// milk).
void check(const Addition& addition);

}  // namespace barwright::core
