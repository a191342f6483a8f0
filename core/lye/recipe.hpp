#pragma once

#include <span>
#include <string>
#include <vector>

#include "core/lye/addition.hpp"
#include "core/lye/lye.hpp"

namespace barwright::core {

/// What is asked of weigh(): everything in grams, before rounding to a scale.
struct RecipeRequest {
  std::vector<PotFat> oils;        ///< the blend
  std::vector<PotFat> other_fats;  ///< colour oil, stearic acid at trace, ...: lye yes, blend no
  std::vector<Acid> acids;
  std::vector<Addition> liquids;    ///< their water takes the place of plain water
  std::vector<Addition> additives;  ///< so does theirs, where they have any
  LyeSettings lye;
  Scales scales;
};

/// A weighed fat.
struct FatLine {
  std::string name;
  double grams = 0;
  double share_of_oils = 0;     ///< fraction of the blend's total; other fats too
  Span saponification_value{};  ///< mg KOH/g
  Mark mark = Mark::judgement;
  std::string source;
  bool certified = false;
};

/// Any other weighed line.
struct Line {
  std::string name;
  double grams = 0;
  Into into = Into::trace;
  bool frozen = false;    ///< goes in as ice or slush
  double water = 0;       ///< g of it that is water
  double salt = 0;        ///< g of it that is sodium chloride
  bool scorches = false;  ///< sugar or fat in it, more than a trace
};

/// What the batter becomes, by stoichiometry from molar masses, grams.
struct Products {
  double soap = 0;  ///< alkali salts of fatty acids
  double glycerine = 0;
  double unsaponified = 0;  ///< superfat: saponifiable fat left over
  double unsaponifiable = 0;
  double water = 0;  ///< added and formed
  double other = 0;  ///< acid salts, alkali impurities, dry additions
  double total() const { return soap + glycerine + unsaponified + unsaponifiable + water + other; }
};

/// Whether the grams add up.
struct MassBalance {
  double lines_grams = 0;     ///< sum of every line
  double products_grams = 0;  ///< sum of products
  double asked_grams = 0;     ///< the same recipe before rounding
  double allowed_grams = 0;   ///< how far rounding alone can move it
  bool closes() const;
};

/// A recipe as the scale can show it, safe to put in the lye pot.
struct Recipe {
  std::vector<FatLine> oils;
  std::vector<FatLine> other_fats;
  std::vector<AlkaliLine> alkali;
  double water_grams = 0;  ///< plain water, weighed
  std::vector<Line> acids;
  std::vector<Line> liquids;
  std::vector<Line> additives;
  double superfat = 0;        ///< nominal, fraction, after rounding
  double asked_superfat = 0;  ///< fraction
  SuperfatBand band;
  KohShares koh;
  double lye_concentration = 0;  ///< mass fraction, pure alkali / (alkali + all water), as realised
  double mixed_concentration = 0;  ///< the same in the lye pot as the alkali goes in
  double salt_dissolves = 0;       ///< g of sodium chloride that stay clear in its lye at 20 C
  double pot_water_grams = 0;      ///< water that is in the lye pot as the alkali goes in
  double water_to_alkali = 0;      ///< g all water per g weighed alkali
  double oils_grams = 0;           ///< of the blend
  double total_grams = 0;          ///< of all lines: what the batter weighs
  double total_water_grams = 0;    ///< whatever brings it
  double acid_moles_in_lye = 0;    ///< of alkali used up while the lye is made
  double sugar_in_lye = 0;         ///< g, in the water before the alkali
  Products products;
  std::vector<Forgotten> forgotten;
  std::vector<Note> notes;  ///< a changed superfat, then the most severe first
  MassBalance balance;

  const MassBalance& mass_balance() const { return balance; }
};

/// Returns the weighed recipe: oils to the nearest step of the oils scale, alkali down to the step
/// of the lye scale, the rest to the nearest. The lye is reckoned from the ROUNDED oils. Errors:
/// Refusal with reason and remedy.
Recipe weigh(const RecipeRequest& request);

/// Returns the request with every weight times `factor` (> 0); scales and strengths stay.
RecipeRequest scaled(const RecipeRequest& request, double factor);
/// Returns the request with the blend at this total, everything else in proportion.
RecipeRequest scaled_to_oils(const RecipeRequest& request, double oils_grams);

}  // namespace barwright::core
