#pragma once

#include <string>
#include <vector>

#include "solver/tune/learn.hpp"
#include "targets/model/difference.hpp"

namespace barwright::tune {

/// One difference between two of the maker's bars, before and after her notes.
struct Change {
  Asked asked;
  std::string bar, against;
  targets::Difference print, tuned;  ///< points
  double doubt_left = 1;  ///< width of the band now, of its width by print with what oils may do
};

/// What one oil or one pour does by itself, in steps.
struct Own {
  std::string name;
  targets::Property property = targets::Property::hardness;
  double steps = 0;  ///< mean of the readings
};

/// A note that the others speak against.
struct Doubted {
  core::Place place;
  std::string words;
  double share = 0;  ///< how surely it is a slip or a stray figure
};

/// All that notes changed, for a maker to read.
struct Told {
  std::vector<Change> changes;
  std::vector<Own> oils, pours;
  std::vector<Doubted> doubted;
  std::vector<std::string> without_note;
  std::vector<std::string> at_limit;  ///< matters whose constant presses on a limit of its spread
};

/// Returns it; `tuned`: the model of what was learned.
Told told(const NotesModel& model, const Learned& learned, const targets::PropertyModel& tuned);

}  // namespace barwright::tune
