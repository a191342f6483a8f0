#pragma once

#include <optional>
#include <string>
#include <vector>

#include "oils/records/library.hpp"
#include "targets/text/brief_words.hpp"

namespace barwright::targets {

/// An oil a maker named, found in the library.
struct OilName {
  std::string name;  ///< the library's key
  Written written;
};

/// One oil of a blend.
struct BlendOil {
  OilName oil;
  double share = 0;  ///< fraction of the total oil mass
  double grams = 0;  ///< as written; 0 when written as a share
};

/// A blend the maker already has. Shares add to 1.
struct Blend {
  std::vector<BlendOil> oils;  ///< in file order
  double grams = 0;            ///< total, when written in grams; else 0
  core::Place place;
};

/// Which oils may be used. At least one of the members says something.
struct OilsFrom {
  bool shelf = false;
  bool library = false;
  std::vector<OilName> named;
  std::optional<FileName> price_list;
  std::vector<FileName> shelves;  ///< other shelf files
  Written written;
};

/// How much of one oil, fractions of the total oil mass. Without `always` the oil may also stay
/// out: none at all, or between least and most.
struct OilLimit {
  OilName oil;
  std::optional<double> least;
  std::optional<double> most;
  bool always = false;
  Written written;
};

/// How much of all oils that carry one of `tags` together, fractions of the total oil mass.
/// "vegan: yes" is least 1, "palm: no" is most 0.
struct TagRule {
  std::vector<std::string> tags;  ///< library's words; more than one when a word stands for several
  std::optional<double> least;
  std::optional<double> most;
  Written written;
};

/// An oil barred by name, or every oil that carries a tag.
struct BarredOil {
  std::string oil;  ///< library's key, or empty
  std::string tag;  ///< library's tag, or empty; both are set when the word is both
  Written written;
};

/// Grams of an oil that must stay on the shelf.
struct LeaveOnShelf {
  OilName oil;
  double grams = 0;
};

/// What a brief says of the house's manners (targets/model/manners.hpp).
struct MannersWish {
  bool none = false;             ///< the free search
  std::vector<std::string> off;  ///< names of those not kept
};

/// All that a brief says of the oils beside the wishes.
struct OilRules {
  MannersWish manners;
  std::optional<int> most_oils;
  Written most_oils_written;
  std::optional<double> step_share;  ///< fraction; neither: 1 %
  std::optional<double> step_grams;
  Written steps_written;
  std::vector<OilLimit> oils;
  std::vector<TagRule> tags;
  std::vector<BarredOil> barred;
  std::vector<LeaveOnShelf> leave_on_shelf;
};

}  // namespace barwright::targets
