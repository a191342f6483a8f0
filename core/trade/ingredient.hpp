#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace barwright::core {

/// Whose label custom is followed. Both want descending order of weight as added, those under 1 %
/// in any order after, colourants last in any order: Regulation (EC) No 1223/2009, article
/// 19(1)(g); 21 CFR 701.3(a) and (f) (both recalled).
enum class Custom {
  eu,  ///< Latin and botanical names: Aqua, Parfum, CI numbers
  us   ///< English names: Water, Fragrance, colour names
};

/// What an ingredient is to the order of a list.
enum class Role { plain, colourant, fragrance };

/// How sure a name for the list is.
enum class NameStatus {
  established,        ///< in the library as an INCI name in use
  formed_by_analogy,  ///< built as its kin are; to be verified
  recalled,           ///< from our table, from memory of the EU's open list of ingredients (CosIng)
  makers_own,         ///< typed by the maker
  missing             ///< none is known: the supplier's document has it
};
/// Returns "formed by analogy", ...
const char* word(NameStatus status);

/// A name on the list for something that is no fat.
struct IngredientName {
  std::string eu;
  std::string us;
  Role role = Role::plain;
  const std::string& in(Custom custom) const { return custom == Custom::eu ? eu : us; }
};

/// Returns the name of a common addition (pigments, clays, salt, sugars, milks, ...) as makers call
/// it, upper and lower case alike; nothing for one our table does not hold. Only whole names are
/// known: nothing is guessed from a part of one. Source: memory of CosIng (recalled).
std::optional<IngredientName> find_ingredient_name(std::string_view name);

/// Names every list needs.
const IngredientName& water_name();
const IngredientName& glycerin_name();
const IngredientName& fragrance_name();

/// Returns a soap's name with potassium in the place of sodium: "Potassium Olivate".
std::string potassium_name(const std::string& sodium_name);

}  // namespace barwright::core
