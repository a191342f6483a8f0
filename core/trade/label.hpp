#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/lye/lye.hpp"
#include "core/trade/ingredient.hpp"

namespace barwright::core {

/// A fat of the bar with its names.
struct LabelFat {
  PotFat fat;  ///< g over all parts
  std::string inci;
  std::string saponified;  ///< with sodium: "Sodium Olivate"
  bool saponified_by_analogy = false;
};

/// Anything that is neither fat, alkali nor plain water.
struct LabelAddition {
  std::string name;  ///< as the maker wrote it
  double grams = 0;
  std::string own_name;  ///< the maker's entry for the list; empty: our table
  std::optional<Role> own_role;
  std::string becomes;       ///< what lye turns it into ("Sodium Citrate"); empty: stays as it is
  double becomes_grams = 0;  ///< g of that
  std::optional<double> cured_grams;  ///< g of it in the cured bar, where water of it has left
};

/// A substance a scent's certificate lists.
struct Allergen {
  std::string scent;    ///< name of the addition it is in
  std::string name;     ///< "Limonene"
  double fraction = 0;  ///< of the scent's mass
};

/// From the least to the most.
struct Range {
  double least = 0, most = 0;
};

/// One part's or the whole bar's make-up; parts with their own superfat stay apart.
struct LabelPart {
  std::vector<LabelFat> fats;
  std::vector<AlkaliLine> alkali;
  double superfat = 0;      ///< fraction, nominal
  double water_grams = 0;   ///< plain water added
  double poured_grams = 0;  ///< everything
  double cured_grams = 0;   ///< estimate
  double cured_water = 0;   ///< g of it that is water
  /// What may be otherwise, for the order of the list: nothing unless stated.
  std::optional<Range> superfat_band{};     ///< fractions, by the doubt of oils, lye and scales
  std::optional<Range> cured_water_band{};  ///< g
  double oils_error = 0, lye_error = 0;     ///< g, of one weighing
};

struct LabelRequest {
  std::vector<LabelPart> parts;
  std::vector<LabelAddition> additions;
  std::vector<Allergen> allergens;
  Custom custom = Custom::eu;
};

/// Least share of a rinsed-off product from which a fragrance allergen is named, mass fraction:
/// Regulation (EC) No 1223/2009, annex III (recalled; 0.01 %).
inline constexpr double kAllergenLeast = 0.0001;
/// Below this mass fraction ingredients may stand in any order (both customs).
inline constexpr double kAnyOrderBelow = 0.01;

struct Ingredient {
  std::string name;  ///< as the list prints it; the maker's word where none is known
  std::string from;  ///< what the maker calls it
  double grams = 0;
  double fraction = 0;  ///< of everything on this list
  Role role = Role::plain;
  NameStatus status = NameStatus::established;
  bool allergen = false;  ///< part of a scent, named beside it; its grams are the scent's too
  Range span{};           ///< fractions, as far as the weights are known
  /// Whether the one behind it on the list may be the heavier, as far as the weights are known.
  bool near_next = false;
};

/// A list in label order: by weight, heaviest first (equal ones by name); below 1 % goes on in the
/// same order, which both customs allow; colourants last.
struct IngredientList {
  std::vector<Ingredient> items;
  double total_grams = 0;
  /// Returns "Sodium Olivate, Aqua, Glycerin, ...".
  std::string line() const;
  /// Returns neighbours of 1 % or more of which either may be the heavier, as indices of the first
  /// of each two: either may stand before the other.
  std::vector<std::size_t> nearly_equal() const;
};

/// Returns the list of what was put in.
IngredientList as_added(const LabelRequest& request);
/// Returns the list of what is in the cured bar, by stoichiometry (core::products_of per fat): soap
/// of each fat, glycerine, water left, the oil left over with its unsaponifiables.
IngredientList as_saponified(const LabelRequest& request);

/// Returns "100 g" (eu) or "Net Wt 3.5 oz (100 g)" (us), ounces rounded down to tenths.
std::string net_weight_line(double grams, Custom custom);

/// A word that says more than 'this cleans', and why that matters.
struct Claim {
  std::string word;
  std::string why;
};
/// Returns the claims in words meant for a label.
std::vector<Claim> find_claims(std::string_view words);

/// Returns the plain note that labelling law is local and must be checked.
const std::string& law_note();

}  // namespace barwright::core
