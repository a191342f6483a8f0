#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/bench/cut.hpp"
#include "core/bench/mould.hpp"
#include "core/bench/temperature_solid.hpp"
#include "core/lye/batch.hpp"
#include "core/lye/recipe.hpp"
#include "oils/books/shelf.hpp"
#include "oils/records/additives.hpp"
#include "oils/records/library.hpp"
#include "targets/files/batch_file.hpp"
#include "targets/model/composition.hpp"

namespace barwright::batch {

/// Something beside oils, alkali and water, weighed.
struct WeighedAddition {
  std::string name;
  double grams = 0;
  std::string when;
  const oils::Additive* known = nullptr;  ///< what the additive records say of it
  std::string remark;  ///< a dose outside the usual, or what it does; may be empty
  std::string how{};   ///< in place of what the records say of stirring it in
};

/// One scent in one colour (or in the whole part).
struct ScentPortion {
  std::string colour;  ///< empty: the whole part
  double grams = 0;
  double in_bar = 0;  ///< fraction of the finished, cured bar, were it all this colour
};
struct ScentPlan {
  const targets::Scent* scent = nullptr;
  double asked_grams = 0;
  double grams = 0;
  std::optional<double> limit;  ///< fraction of the finished bar, from the maker's certificate
  bool capped = false;
  std::vector<ScentPortion> portions;
  std::map<std::string, std::string> behaves;  ///< the maker's entry; else marked practice
  bool behaves_said = false;                   ///< whether it is the maker's entry
  std::optional<double> flash_celsius;         ///< the maker's sheet; else recalled
  bool flash_said = false;
  std::optional<WeighedAddition> soaked_in;  ///< clay it is stirred into beforehand
};

/// A colour's portion of a part.
struct ColourPlan {
  std::string name;
  double share = 0;
  double batter_grams = 0;  ///< plain batter to pour off for it
  double oils_grams = 0;    ///< in it
  double wet_grams = 0;     ///< oil its colours are wetted with, of this portion
  std::vector<WeighedAddition> with;
};

/// From here on salt at trace, a share of the oils, makes a salt bar (judgement).
inline constexpr double kSaltBar = 0.10;

/// One part, weighed.
struct PartPlan {
  const targets::Part* part = nullptr;
  targets::LyeWish lye;         ///< the batch's and the part's own, merged
  core::RecipeRequest request;  ///< as weighed
  core::Recipe recipe;          ///< lye lines: its own pot's, or what its portion holds
  core::Pot pot;                ///< all fats, acids and alkali, for checks
  core::PotCheck check;
  std::optional<core::LyePortion> portion;  ///< of a shared pot
  double wanted_grams = 0;                  ///< batter wanted
  std::string wet_oil;                      ///< oil the colours are wetted with
  double wet_grams = 0;                     ///< of it, all colours
  std::vector<ColourPlan> colours;
  std::vector<ScentPlan> scents;
  std::vector<WeighedAddition> additions;  ///< of the whole part, at trace or in the oils
  std::vector<WeighedAddition> into_lye;   ///< of its lye
  std::vector<WeighedAddition> on_top;
  std::vector<core::MeltingFat> melting;
  targets::Composition composition;
  double embed_grams = 0;
  double embed_ml = 0;      ///< their volume: so much less batter
  double salt_of_oils = 0;  ///< salt at trace, g per g of oils
  double batter_density = core::batter_density().span.typical;  ///< g/mL, salt at trace counted
};

/// One kind of mould, cut.
struct LogPlan {
  std::string name;
  int count = 1;
  double volume_ml = 0;                        ///< of one, to the fill
  double surface_cm2 = 0;                      ///< of one; 0: not known
  double length_mm = 0;                        ///< 0: not known
  double bar_width_mm = 0, bar_height_mm = 0;  ///< of the cut face; 0: not known
  std::optional<core::CutPlan> cut;
  int bars() const { return count * (cut ? cut->bars : 1); }
};

/// One line of what must be there before work starts.
struct NeedLine {
  std::string name;
  double grams = 0;
  std::vector<std::pair<std::string, double>> parts;  ///< g per part
  std::optional<double> on_shelf;                     ///< g that may be used, when a shelf is named
  bool scale_of_lye = false;                          ///< weighed on the finer scale
};

/// A batch, all of it weighed.
struct BatchPlan {
  targets::BatchFile file;
  oils::Library library;
  oils::Additives additives;
  core::Scales scales;
  core::LyeSettings settings;  ///< of a shared pot
  std::vector<PartPlan> parts;
  std::optional<core::SharedLye> shared;
  std::vector<core::LyeNeed> needs;  ///< of a shared pot, part by part
  std::vector<LogPlan> logs;
  int bars = 0;
  double trim_grams = 0;       ///< of body lost to trims and kerfs
  std::vector<NeedLine> list;  ///< oils first, then alkali, water, the rest
  std::vector<core::Note> notes;

  const PartPlan& body() const;
};

/// Returns the batch weighed out. Errors: InputError at the line that cannot be taken (a scent
/// without its certificate's limit, a topping per bar without bars, a part that wants a lye of its
/// own from a shared pot, ...), Refusal of the lye engine.
/// The plan points into `file`'s copy within itself: move it, do not copy parts out of it.
BatchPlan plan_batch(targets::BatchFile file, const oils::Library& library,
                     const std::optional<oils::Shelf>& shelf);

}  // namespace barwright::batch
