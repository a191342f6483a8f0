#pragma once

#include <array>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/chemistry/fatty_acid.hpp"
#include "core/chemistry/saponification.hpp"
#include "core/units/error.hpp"
#include "core/units/figure.hpp"

namespace barwright::oils {

/// What a record is, for the arithmetic: waxes and free acids are not triglycerides.
enum class Form { triglyceride, wax, free_acid };

/// Returns the word a data file writes for a form, e.g. "free acid".
const char* word(Form form);
/// Returns the form as the saponification arithmetic names it.
core::FatForm fat_form(Form form);

/// One oil, butter, wax or animal fat, every figure with its source and mark.
struct Oil {
  std::string name;  ///< common name, the library's key, e.g. "olive"
  std::vector<std::string> synonyms;
  std::string inci;                         ///< INCI name of the fat
  std::string saponified_name;              ///< INCI name once saponified
  bool saponified_name_by_analogy = false;  ///< formed by analogy: to be verified before labelling
  std::set<std::string> tags;  ///< "butter", "animal", "palm", "tree nut", "vegan", ...
  Form form = Form::triglyceride;
  bool solid_at_25c = false;

  /// % of total fatty acids (sum of typicals 100). Absent acids are 0 by silence. A wax may have
  /// none at all.
  std::array<std::optional<core::Figure>, core::kFattyAcidCount> acids;
  core::Figure saponification_value;       ///< mg KOH per g of fat
  core::Figure iodine_value;               ///< g I2 per 100 g (Wijs)
  core::Figure unsaponifiable;             ///< % of the fat by mass
  std::optional<core::Figure> acid_value;  ///< mg KOH per g: what the free acid takes up (waxes)
  std::optional<core::Figure> titre;       ///< C, of the mixed fatty acids
  std::optional<core::Figure> density;     ///< g/mL
  double density_at_celsius = 20;          ///< temperature of `density`
  std::optional<core::Figure> usual_most;  ///< % of the oils, where practice has a usual most share
  std::string note;                        ///< one line a maker should know, may be empty
  /// Sentences to say beside every recipe: figures we doubt, and why the maker confirmed them.
  std::string confirmed;
  core::Place place;  ///< where the record stands

  bool operator==(const Oil&) const = default;

  /// Returns the typical mass fractions of the total fatty acids, sum 1 (all 0 for a wax without
  /// acids).
  core::AcidProfile typical_profile() const;
  bool has_acids() const;
  bool has_tag(const std::string& tag) const { return tags.contains(tag); }
  /// Returns whether the figure behind the lye was never read in a source: the saponification
  /// value's typical figure or its range is recalled, practice or our own judgement.
  bool lye_figure_unread() const;
  /// Returns a sentence telling the maker so and to take the supplier's figure; else empty.
  std::string lye_caution() const;
};

/// Returns the weaker of a figure's two marks: of its typical value and of its range.
core::Mark weakest_mark(const core::Figure& figure);
/// Returns the mark a data file's word names, or nothing.
std::optional<core::Mark> find_mark(const std::string& text);
/// Returns how a figure was come by, in words for the maker: "range read in codex-210; typical
/// computed (harmonic-mean)".
std::string provenance(const core::Figure& figure);

/// Returns the saponification value the typical acids give, mg KOH/g, by the harmonic mean molar
/// mass, of the saponifiable share; nothing for waxes.
std::optional<double> saponification_value_from_acids(const Oil& oil);
/// Returns the iodine value the typical acids give, g I2/100 g (AOCS Cd 1c-85); nothing for waxes.
std::optional<double> iodine_value_from_acids(const Oil& oil);

}  // namespace barwright::oils
