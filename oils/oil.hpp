#pragma once

#include <array>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/error.hpp"
#include "core/fatty_acid.hpp"
#include "core/figure.hpp"

namespace barwright::oils {

/// What a record is, for the arithmetic: waxes and free acids are not triglycerides.
enum class Form { triglyceride, wax, free_acid };

/// One oil, butter, wax or animal fat, every figure with its source and mark.
struct Oil {
  std::string name;                   ///< common name, the library's key, e.g. "olive"
  std::vector<std::string> synonyms;
  std::string inci;                   ///< INCI name of the fat
  std::string saponified_name;        ///< INCI name once saponified
  bool saponified_name_by_analogy = false;  ///< formed by analogy: to be verified before labelling
  std::set<std::string> tags;         ///< "butter", "animal", "palm", "tree nut", "vegan", ...
  Form form = Form::triglyceride;
  bool solid_at_25c = false;

  /// % of total fatty acids (sum of typicals 100). Absent acids are 0 by silence.
  std::array<std::optional<core::Figure>, core::kFattyAcidCount> acids;
  core::Figure saponification_value;  ///< mg KOH per g of fat
  core::Figure iodine_value;          ///< g I2 per 100 g (Wijs)
  core::Figure unsaponifiable;        ///< % of the fat by mass
  std::optional<core::Figure> titre;  ///< C, of the mixed fatty acids
  std::optional<core::Figure> density;  ///< g/mL
  double density_at_celsius = 20;     ///< temperature of `density`
  std::optional<core::Figure> usual_most;  ///< % of the oils, where practice has a usual most share
  std::string note;                   ///< one line a maker should know, may be empty
  core::Place place;                  ///< where the record stands

  /// Returns the typical mass fractions of the total fatty acids, sum 1.
  core::AcidProfile typical_profile() const;
};

}  // namespace barwright::oils
