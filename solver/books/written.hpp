#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/units/date.hpp"
#include "core/units/error.hpp"

namespace barwright::books {

/// One thing as typed in: "body/olive" and "1212 g".
struct Typed {
  std::string what, said;
  std::string option;   ///< "--weighed", or the key of the file it stands under
  core::Place place{};  ///< in the file; line 0: typed behind the option
};

/// What was written on a bench sheet.
struct Written {
  std::string batch;                ///< as the sheet names it
  std::string sheet;                ///< the mark of its recipe; empty: not said
  std::optional<core::Day> date{};  ///< the day it was made
  int bars = 0;                     ///< 0: not said
  std::vector<Typed> weighed;       ///< "body/olive", "1212 g"
  std::vector<Typed> lots;          ///< "olive", "MB-2291"
  std::vector<Typed> steps;         ///< "7", "9:55, 60 C"
  std::vector<Typed> happened;      ///< "body/trace", "10:35, 35 C"
  std::vector<std::string> notes, defects;
  std::vector<std::string> not_ticked;  ///< lines that others were ticked around
};

/// Returns what stands in such a file, as the page of a sheet writes it or as typed by hand:
///   written: towpath
///   sheet: 3fa2b1c0
///   date: 2027-03-20
///   bars: 22
///   weighed: {body/olive: 1212 g, lye pot/water: 532.5 g}
///   lots: {olive: MB-2291}
///   steps: {7: "9:55, 60 C"}
///   happened: {body/trace: "10:35, 35 C", body/gel: all, body/cut: 2027-03-21 14:00}
///   notes: [room was cold]
///   defects: ["soda ash", "cracked: 3 bars"]
///   not-ticked: [body/oat flour]
/// Errors: InputError at file, line and column.
Written read_written(const std::string& path);

/// Throws what is wrong with a thing typed in: InputError at its line, or at the option it came
/// behind.
[[noreturn]] void refuse(const Typed& typed, const std::string& message,
                         const core::Remedy& remedy);

/// What is typed in beside a step or in one of the boxes of a sheet: when, and how warm.
struct Moment {
  std::string day;   ///< "2027-03-21", or empty
  std::string time;  ///< "9:55", or empty
  std::optional<double> celsius;
  /// Returns "2027-03-21 at 9:55, 60 C".
  std::string words() const;
};
/// Returns the moment of such a text. Errors: as refuse.
Moment moment_of(const Typed& typed);

/// Returns the words to keep of what happened ("trace at 10:35, 35 C"), the part left off. Errors:
/// as refuse, for another box than trace, poured, gel, unmould, cut and each.
std::string happened_words(const Typed& typed, const std::string& box);

}  // namespace barwright::books
