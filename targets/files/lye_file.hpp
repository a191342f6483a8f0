#pragma once

#include <optional>
#include <string>
#include <vector>

#include "targets/text/brief_words.hpp"

namespace barwright::targets {

/// What an amount is counted on.
enum class Basis {
  total,          ///< grams in all
  per_kg_oils,    ///< grams per kg of oils
  per_bar,        ///< grams per bar
  of_oils,        ///< fraction of the oil mass
  of_water,       ///< fraction of the lye water
  per_kg_batter,  ///< grams per kg of batter: batches only
};
struct Dose {
  double value = 0;  ///< g, g per kg, g, fraction, fraction
  Basis basis = Basis::total;
  bool teaspoons = false;  ///< `value` is teaspoons, not grams: colours and additives only
  Written written;
};

/// Something that enters the lye or the pot beside oils, alkali and water.
struct Addition {
  std::string name;                ///< as the maker wrote it, a strength at its end taken off
  std::optional<double> strength;  ///< fraction, "sodium lactate syrup 60 %"
  Dose dose;
  std::string when;                   ///< free words, may be empty
  std::optional<bool> lye_corrected;  ///< acids: lye corrected, or superfat let rise
  bool frozen = false;                ///< liquids
  std::optional<double> spoon_grams;  ///< what a level teaspoon of it weighs
  Written written;
};

/// The strength of a jar of alkali, fractions of its weight.
struct StrengthWish {
  double stated = 1;
  std::optional<double> least{};  ///< the least its certificate allows
  std::optional<double> most{};   ///< the most
  Written written;
};

/// What a maker says of lye and water; what is absent is for the lye engine to default.
struct LyeWish {
  enum class Alkali { sodium, potassium, mixed };
  enum class KohBasis { moles, grams, fat };  ///< what a share of potash is a share of
  std::optional<Alkali> alkali;
  std::optional<StrengthWish> naoh_strength;
  std::optional<StrengthWish> koh_strength;
  std::optional<double> koh_share;  ///< mixed only, by `koh_basis`
  KohBasis koh_basis = KohBasis::moles;
  std::optional<double> superfat;          ///< fraction
  std::optional<double> never_below;       ///< fraction: the worst case's floor
  std::optional<bool> raise;               ///< no: refused where the superfat would have to rise
  std::optional<double> concentration;     ///< g alkali per g of lye; at most one of these three
  std::optional<double> water_per_alkali;  ///< g water per g alkali
  std::optional<double> water_of_oils;     ///< g water per g oils
  std::optional<double> lye_celsius;       ///< planned temperature of the lye
  std::optional<double> oils_celsius;      ///< planned temperature of the oils
  std::vector<Addition> acids;
  std::vector<Addition> liquids;
  std::vector<Addition> into_lye;  ///< salt, sodium lactate, sugar and the like
  Written written;
};

/// The steps the maker's scales show, g. Absent: for the lye engine to default.
struct Scale {
  std::optional<double> oils_grams;
  std::optional<double> lye_grams;
};

}  // namespace barwright::targets
