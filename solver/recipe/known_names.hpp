#pragma once

#include <string>

namespace barwright::recipe {

/// What a name, taken whole, stands for.
enum class NameOf {
  nothing,  ///< not known by name
  citric_anhydrous,
  citric_monohydrate,
  citric_unclear,  ///< one of the two
  lactic,
  acetic,
  other_acid,  ///< an acid whose use of lye is not reckoned here
  water,       ///< plain water, tea, black coffee: water and traces
  lactate_syrup,
  lactate_powder,
  salt,
  brine,  ///< salt in water, of the strength behind its name
  sugar,
  alkali,  ///< is or gives alkali
};

/// Returns what the name stands for; words in brackets count as words.
NameOf meaning_of(const std::string& name);

/// Returns what an unknown name sounds like, in words for the maker ("a fat"), or empty. Only whole
/// words are looked at, and none of a colour's or a scent's name.
std::string sounds_like(const std::string& name);

}  // namespace barwright::recipe
