#pragma once

#include <string>
#include <vector>

#include "solver/batch/batch_clock.hpp"

namespace barwright::app {

/// A weigh line with what the bench needs beside it, as words. Text and page print the same.
struct SheetLine {
  static constexpr const char* kNotTyped = "-";
  std::string name;
  std::string grams;    ///< "812 g"
  std::string total;    ///< the scale's reading if the vessel stays on it: running tare total
  std::string beside;   ///< what is left if it is forgotten, or what to mind
  bool danger = false;  ///< forgotten, it leaves free lye
  std::string key{};  ///< what it is typed in by, where that is not its name; kNotTyped: by nothing
};
/// A table of weigh lines into one vessel.
struct SheetTable {
  std::string title;
  std::string beside;  ///< one line under the title, may be empty
  std::string column;  ///< head of the last column
  std::vector<SheetLine> lines;
  std::string into{};  ///< what 'make' calls the vessel: a part, "lye pot", "lye"
};
/// A heading with sentences.
struct SheetText {
  std::string title;
  std::vector<std::string> lines;
};

/// The bench sheet in words and figures, ready to set as text or as a page.
struct SheetStep {
  std::string when;  ///< as the clock shows it
  std::string part;  ///< empty: all
  std::string what, sign;
  double minutes = 0;  ///< after work begins
  bool lye = false;    ///< alkali goes into water
};

struct Sheet {
  std::string title, date;
  std::string file;     ///< of the batch, without its folder
  std::string mark;     ///< of the recipe as weighed
  std::string number;   ///< "sheet 7", or why it has none
  std::string changed;  ///< the recipe is another since a sheet was given out; else empty
  std::vector<std::string> parts;    ///< their names, the body first as in the file
  std::vector<std::string> facts;    ///< bars, batter, superfats
  std::vector<std::string> dangers;  ///< what can hurt, first
  std::vector<std::string> gear;
  std::vector<std::string> first_aid;
  std::vector<SheetStep> clock;
  std::vector<SheetTable> weigh;
  std::vector<SheetTable> colours;
  std::vector<std::vector<std::string>> temperatures;  ///< part, oils, lye, batter, what it means
  std::vector<SheetText> after;                        ///< pour, top, cut, cure, test
  std::vector<std::vector<std::string>> checks;        ///< what, practice, ours, why
  std::vector<std::string> mind;
  SheetTable list;  ///< all parts together
};

/// Returns the sheet of a batch.
Sheet sheet_of(const batch::BatchPlan& plan, const batch::BatchTimes& times);

}  // namespace barwright::app
