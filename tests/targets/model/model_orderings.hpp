#pragma once

#include <string>
#include <vector>

#include "tests/targets/model/model_testing.hpp"

namespace barwright::targets::testing {

/// One ordering print or practice states: `better` has more of the property than `worse`.
struct Ordering {
  Property property;
  std::string better, worse;
  std::string source;
};

/// The orderings. read: the work or its abstract was read; recalled: from memory, or a fair
/// inference from what was read; practice: common practice of the trade, no source; by
/// construction: holds because the model is built so, and is no evidence. They guided the model's
/// design: a check of consistency, not a validation. `thrift` orderings are stated in print as
/// wear, the other way round.
inline const std::vector<Ordering>& orderings() {
  using enum Property;
  static const std::vector<Ordering> kAll = {
      {hardness, "palm kernel", "palm", "read: Kuntom 1996, JAOCS, harder as palm kernel rises"},
      {hardness, "P50K50", "P80K20", "read: Kuntom 1996, JAOCS"},
      {hardness, "beef tallow", "cottonseed", "read: Simmons and Appleton 1908, tallow firm"},
      {hardness, "beef tallow", "olive", "read: Goddard 1888, more oleine softer"},
      {hardness, "lard", "olive", "recalled: titre 37.5 against 21"},
      {hardness, "olive", "linseed", "recalled: J. Chem. Educ. 1929, unsaturated soaps very soft"},
      {hardness, "coconut", "lard", "practice"},
      {hardness, "cocoa butter", "lard", "practice"},
      {hardness, "olive", "sunflower", "practice"},
      {hardness, "sunflower", "castor", "practice"},
      {cut_firmness, "coconut", "olive", "read: Simmons and Appleton 1908, firm even with water"},
      {cut_firmness, "palm", "olive", "practice"},
      {cut_firmness, "olive", "castor", "practice"},
      {lather, "coconut", "beef tallow", "read: Simmons and Appleton 1908, coconut copiously"},
      {lather, "cottonseed", "beef tallow", "read: Simmons and Appleton 1908, cottonseed helps"},
      {lather, "T75C25", "T95C5", "read: Ginn 1968, JAOCS 45, expert panel"},
      {lather, "coconut", "palm", "recalled: Fischer 1921"},
      {lather, "palm kernel", "palm", "recalled: Fischer 1921"},
      {lather, "coconut", "olive", "practice"},
      {lather, "beef tallow", "cocoa butter", "practice"},
      {lather, "coconut", "shea butter", "practice"},
      {lather, "olive", "shea butter", "recalled: J. Chem. Educ. 1929, stearate poor in cold"},
      {quickness, "coconut", "beef tallow", "read: Fischer 1921, lower soaps foam quickly cold"},
      {quickness, "T75C25", "T95C5",
       "recalled: Ginn 1968, panel; one machine test peaked at 85:15"},
      {quickness, "coconut", "olive", "practice"},
      {quickness, "olive", "beef tallow",
       "recalled: Simmons and Appleton 1908, oleate soluble cold"},
      {staying, "beef tallow", "coconut", "read: J. Chem. Educ. 1929, laurate foam transient"},
      {staying, "palm", "coconut", "read: J. Chem. Educ. 1929"},
      {mildness, "olive", "coconut", "read: Blank 1947, Arch. Derm. 56:419"},
      {mildness, "beef tallow", "coconut", "recalled: Dahlgren, cocoate level matters"},
      {mildness, "shea butter", "olive",
       "read: Kubota 2020, Appl. Sci. 10:4310, saturated C18 least"},
      {mildness, "olive", "sunflower", "by construction"},
      {conditioning, "olive", "coconut", "practice"},
      {conditioning, "beef tallow", "coconut", "practice"},
      {conditioning, "olive", "beef tallow", "practice"},
      {thrift, "beef tallow", "coconut", "read: Fischer 1921, lower soaps wasteful"},
      {thrift, "T95C5", "T75C25", "read: Ginn 1968, JAOCS 45, erosion up with cocoate"},
      {thrift, "beef tallow", "olive", "recalled"},
      {thrift, "beef tallow", "lard", "recalled"},
      {keeping, "coconut", "olive", "by construction"},
      {keeping, "olive", "soybean", "by construction"},
      {keeping, "soybean", "linseed", "by construction"},
      {keeping, "high-oleic sunflower", "sunflower", "by construction"},
      {keeping, "beef tallow", "olive", "by construction"},
      {soluble_38, "T75C25", "T95C5", "read: Ginn 1968, JAOCS 45, solubility up with cocoate"},
      {soluble_20, "coconut", "beef tallow", "read: Fischer 1921 p. 187, only low soaps work cold"},
  };
  return kAll;
}

/// Returns the bar an ordering names.
inline Composition bar(const std::string& name) {
  if (name == "P50K50") return blend({{"palm", 50}, {"palm kernel", 50}});
  if (name == "P80K20") return blend({{"palm", 80}, {"palm kernel", 20}});
  if (name == "T75C25") return blend({{"beef tallow", 75}, {"coconut", 25}});
  if (name == "T95C5") return blend({{"beef tallow", 95}, {"coconut", 5}});
  return fat(name);
}

}  // namespace barwright::targets::testing
