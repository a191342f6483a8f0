#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/jobs/report/report_blend.hpp"

namespace barwright::app {

/// A change to one line of the brief, as the maker would write it.
struct BriefEdit {
  int wish = -1;        ///< into Formulation::asked: the line it changes
  std::string words;    ///< "at least 12.28 points above", "leave out 'castor: always'"
  std::string file;     ///< to edit; empty: no line of a file does it (more of an oil to use)
  int line = 0;         ///< of the key; 0: a new line under `section`
  std::string path;     ///< of the key, as 'edit' takes it; of a list's entry that of the list
  std::string section;  ///< of a new line: "limits"
  std::string key;      ///< "hardness", "castor", "not"
  std::optional<std::string> value;  ///< all that stands behind the key then; none: take it out
};

/// Returns the edits that a way out comes to, one per line it touches.
std::vector<BriefEdit> edits_of(const jobs::BlendReport& report, const jobs::TriedWay& way);

}  // namespace barwright::app
