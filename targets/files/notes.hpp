#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/units/date.hpp"
#include "targets/files/recipe_file.hpp"
#include "targets/model/property.hpp"

namespace barwright::targets {

/// One making of a bar: its recipe and its day.
struct Pour {
  std::string name;  ///< as notes name it
  RecipeFile recipe;
  core::Day made;
  std::vector<std::pair<std::string, std::string>> lots;  ///< library's oil, the maker's lot
  Written written;
};

/// What hands say of one bar beside another; its signs count from "less" to "more".
enum class Verdict { clearly_less, little_less, no_difference, little_more, clearly_more };
inline constexpr std::size_t kVerdictCount = 5;

/// "The first bar is clearly firmer than the second", by one judge or several.
struct ComparisonNote {
  std::size_t bar = 0, against = 0;  ///< places in MakerNotes::pours
  Property property = Property::hardness;
  std::vector<Verdict> verdicts;  ///< one per judge
  bool blind = false;
  double bar_days = 0, against_days = 0;  ///< age when judged
  Written written;                        ///< of the property's line
};

/// What a figure was taken with.
enum class Means {
  grams_lost,         ///< g lost over the same washes
  hours_until_cut,    ///< h until it could be cut
  minutes_to_trace,   ///< min
  minutes_too_thick,  ///< min until it could no longer be poured
  weight,             ///< g, as the bar dries
  dent,               ///< mm, of the same loaded point
  foam,               ///< mm in the same shaken jar
  weeks_until_spot,   ///< weeks until the first orange spot
};
inline constexpr std::size_t kMeansCount = 8;
/// Returns the words of a file for it: "grams lost".
const char* words(Means means);
/// Returns which property the figure speaks of; nothing for weight, which tells of drying alone.
std::optional<Property> property_of(Means means);

/// One bar's figure.
struct Found {
  std::size_t bar = 0;    ///< place in MakerNotes::pours
  double figure = 0;      ///< in the unit of its means
  bool at_least = false;  ///< "none yet": the figure lies beyond
  double days = 0;        ///< age when taken
  Written written;
};

/// Figures taken by one means in one sitting.
struct MeasurementNote {
  Means means = Means::grams_lost;
  std::string session;  ///< what was the same for all of them; empty: this note alone
  std::vector<Found> readings;
  Written written;
};

/// A maker's notes on bars made from known recipes.
struct MakerNotes {
  std::string file;
  std::vector<Pour> pours;  ///< in file order
  std::vector<ComparisonNote> comparisons;
  std::vector<MeasurementNote> measurements;
  /// Returns the places of the pours that no note speaks of.
  std::vector<std::size_t> without_note() const;
};

/// Returns the notes of a file such as
///   pours:
///     yard, 4 January: {recipe: yard-bar.yaml, made: 2027-01-04, lots: {olive: PO-3}}
///     pomace, 5 January: {recipe: {blend: {olive pomace: 70 %, coconut: 30 %}}, made: 2027-01-05}
///   notes:
///     - {compare: "pomace, 5 January", against: "yard, 4 January", judged: 2027-02-20, blind: yes,
///        hardness: a little softer, lather: [no difference, clearly more]}
///     - {measure: grams lost, judged: 2027-03-01,
///        found: {"yard, 4 January": 4.1 g, "pomace, 5 January": 4.4 g}}
/// Errors: InputError at file, line and column; all that is wrong is told together.
MakerNotes read_notes(const std::string& path, const oils::Library& library);
MakerNotes read_notes_text(const std::string& text, const std::string& name,
                           const std::string& folder, const oils::Library& library);

}  // namespace barwright::targets
