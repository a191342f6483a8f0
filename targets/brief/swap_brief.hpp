#pragma once

#include <optional>
#include <string>
#include <vector>

#include "oils/records/library.hpp"
#include "targets/brief/wish.hpp"
#include "targets/files/make_size.hpp"
#include "targets/files/oil_rules.hpp"
#include "targets/files/recipe_file.hpp"

namespace barwright::targets {

/// Something a maker feels at the basin. "dry touch" is no property of ours: `property` is empty.
struct Aspect {
  std::string name;
  std::optional<Property> property;
  Written written;
};

/// What must stay when an oil goes.
struct Keep {
  enum class Feel {
    not_told_apart,  ///< no property that can be felt differs by what one can notice
    about_the_same,  ///< those that matter most do not
    free,            ///< nothing is asked of the feel
  };
  std::optional<Feel> feel;
  Written feel_written;
  std::vector<Aspect> matters_most;           ///< first counts most
  std::optional<double> melts_below_celsius;  ///< the fats of the pot are clear below this
  Written melts_written;
  std::optional<double> cut_by_hours;  ///< firm enough to cut by then
  Written cut_by_written;
};

/// A claim on the label that the swap must leave true.
struct Claim {
  bool all = false;               ///< every oil carries the tag ("vegan"); else none does
  std::vector<std::string> tags;  ///< library's words
  int first_names = 0;  ///< > 0: instead, the first oils of the list of ingredients, in their order
  Written written;
};

/// A small batch to try the answer with.
struct TestBatch {
  double oils_grams = 0;
  std::string beside;  ///< free words
};

/// A costly oil out, the feel stays.
struct SwapBrief {
  std::string file, folder, name;
  RecipeFile recipe;              ///< the yardstick of every comparison
  std::vector<OilLimit> replace;  ///< how much may be left of each oil that goes
  OilsFrom using_oils;
  std::optional<FileName> shelf;
  OilRules rules;
  Keep keep;
  std::vector<Wish> wishes;   ///< from `keep` (bench, unsaponified, properties) and `want`
  std::vector<Goal> goals;    ///< `best`; empty: nearest in feel
  std::optional<Price> save;  ///< at least
  Written save_written;
  std::vector<Claim> claims;
  std::optional<int> price_of_feel_steps;  ///< points on the curve of saving against feel
  std::optional<TestBatch> test_first;
  std::optional<MakeSize> make;  ///< the recipe's, unless the brief says otherwise
  LyeWish lye;                   ///< likewise
  Scale scale;
  SureLevel sureness;
};

/// Returns a swap brief. Errors: InputError at file, line and column.
SwapBrief read_swap_brief(const std::string& path, const oils::Library& library);
SwapBrief read_swap_brief_text(const std::string& text, const std::string& name,
                               const std::string& folder, const oils::Library& library);

}  // namespace barwright::targets
