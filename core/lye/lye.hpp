#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/chemistry/alkali.hpp"
#include "core/chemistry/saponification.hpp"
#include "core/lye/acid.hpp"
#include "core/units/figure.hpp"
#include "core/units/note.hpp"
#include "core/units/scale.hpp"

namespace barwright::core {

/// A fat in the lye pot. Every fat that meets the lye is one: blend, colour oil, milk fat, egg.
struct PotFat {
  std::string name;
  double grams = 0;
  Span saponification_value{};  ///< mg KOH per g of fat
  double unsaponifiable = 0;    ///< mass fraction; already out of the saponification value
  FatForm form = FatForm::triglyceride;
  std::string source;  ///< of the saponification value, a bibliography key or words
  Mark mark = Mark::judgement;
  bool certified = false;         ///< the span is this very lot's certificate
  std::optional<double> error{};  ///< g its weight may be off; unset: the oils scale's error
  double acid_value = 0;          ///< mg KOH/g, the least: what the free acid alone takes up
  std::string remark{};  ///< what must be said of its figure beside every recipe; may be empty
};

/// Rich in unsaponifiables is more than this mass fraction (judgement: shea and its kin reach 19 %,
/// waxes have 43 % and more).
inline constexpr double kWaxlikeUnsaponifiable = 0.25;
/// Most of the fats in a pot that may be wax or its like (judgement: past a tenth, what a wax
/// leaves of the lye is more than a raised superfat covers).
inline constexpr double kMostWaxShare = 0.10;

/// Returns whether a fat saponifies only in part and slowly: waxes, and what is as rich in
/// unsaponifiables.
bool saponifies_in_part(const PotFat& fat);

/// No lot is taken to be known better than this: 2 % around typical (project policy), 0.5 % with
/// the lot's certificate (repeatability of the test itself, judgement).
inline constexpr double kLeastSpread = 0.02;
inline constexpr double kCertifiedSpread = 0.005;

/// Returns the saponification value span the worst case uses, mg KOH/g. Of a fat that saponifies in
/// part only its free acid is sure to react: the low end is its acid value.
Span judged_span(const PotFat& fat);

/// How much water. `value` is a fraction (concentration, of_oils) or g per g (ratio).
struct WaterRule {
  enum class Kind {
    concentration,  ///< pure alkali / (weighed alkali + all water)
    ratio,          ///< g of water per g of weighed alkali
    of_oils,        ///< g of water per g of oils
  } kind = Kind::concentration;
  double value = 0.33;
};

/// The lowest lye temperature assumed when none is planned, C: a cool room.
inline constexpr double kAssumedLyeCelsius = 20;

/// What the maker wants of the lye. Unset strengths: sodium hydroxide 100 %; potassium hydroxide is
/// refused without one.
struct LyeSettings {
  enum class Choice {
    sodium_hydroxide,
    potassium_hydroxide,
    mixed
  } alkali = Choice::sodium_hydroxide;
  double koh_share = 0;  ///< only mixed, fraction on `basis`
  MixBasis basis = MixBasis::moles;
  std::optional<Strength> naoh_strength{};
  std::optional<Strength> koh_strength{};
  double superfat = 0.05;  ///< aim, fraction
  double never_below = 0;  ///< worst-case floor, fraction
  bool may_raise = true;   ///< whether the superfat may rise to keep the floor; else refused
  WaterRule water;
  std::optional<double> lye_celsius{};  ///< coolest the lye will be before it meets the oils
};

/// Returns the strength the settings give an alkali; unset: 100 %.
Strength strength_of(const LyeSettings& settings, Alkali alkali);

/// Alkali to weigh.
struct AlkaliLine {
  Alkali alkali = Alkali::sodium_hydroxide;
  double grams = 0;        ///< as the lye scale shows it, rounded down
  double purity = 1;       ///< mass fraction it is dosed at
  double exact_grams = 0;  ///< before rounding
  double pure_grams() const { return grams * purity; }
};

/// Superfat as fractions: the least if everything goes against you, the most if for you.
struct SuperfatBand {
  double low = 0;
  double high = 0;
};

/// Superfat moved by rounding that is worth a word, fraction (0.3 points: judgement).
inline constexpr double kMovedByRounding = 0.003;

/// What is left if one line is forgotten.
struct Forgotten {
  std::string line;
  double superfat = 0;        ///< fraction; below 0: free alkali. Meaningless when nothing_left
  double worst = 0;           ///< fraction, the band's low end; decides
  bool lye_heavy = false;     ///< free alkali at worst: not to be used
  bool nothing_left = false;  ///< no fat at all would remain
};

/// The lye for a pot of fats.
struct Lye {
  std::vector<AlkaliLine> alkali;
  double water_grams = 0;      ///< all water wanted, not rounded, whatever brings it
  double asked_superfat = 0;   ///< fraction
  double raised_superfat = 0;  ///< fraction the dose was reckoned with; = asked when not raised
  double asked_worst = 0;      ///< fraction, the worst case at the superfat as asked
  double superfat = 0;         ///< nominal, after rounding
  SuperfatBand band;
  KohShares koh;                  ///< of what is dosed; all 0 without potassium hydroxide
  double saponifiable_moles = 0;  ///< alkali that all saponifiable fat needs, mol (typical)
  double acid_moles = 0;          ///< alkali the acids use up, mol
  double unsaponifiable_grams = 0;
  std::vector<Forgotten> forgotten;  ///< fats first, then acids, in the order given
  std::vector<Note> notes;
};

/// Returns the lye for these fats and acids: superfat = 1 - alkali available to fat / alkali that
/// all saponifiable fat needs; alkali rounded down to the lye scale; superfat raised by half points
/// to 8 % while the worst case lies below `never_below`. `oil_grams` is what a share of oils refers
/// to. Errors: Refusal (free alkali, missing strength, too coarse a scale, too loose a range, ...).
Lye lye_for(std::span<const PotFat> fats, std::span<const Acid> acids, const LyeSettings& settings,
            const Scales& scales, double oil_grams);

}  // namespace barwright::core
