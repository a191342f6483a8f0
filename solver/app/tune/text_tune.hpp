#pragma once

#include <string>

#include "solver/app/json.hpp"
#include "solver/tune/told.hpp"

namespace barwright::app {

/// What 'tune' has to say, beside what it learned.
struct TuneReport {
  tune::Told told;
  std::size_t sayings = 0, pours = 0, noted_pours = 0, bars = 0;
  bool settled = false;
  std::string mark;         ///< of the readings
  std::string yaml, draws;  ///< paths of the two files
};

/// Returns sentences: what notes changed, what doubt is left, what to look at again.
std::string text_tune(const TuneReport& report, bool colour);
/// Returns the same as JSON.
Json json_tune(const TuneReport& report);
/// Returns one sentence of a change: "yard bar is clearly firmer than ...".
std::string sentence_of(const tune::Change& change);

}  // namespace barwright::app
