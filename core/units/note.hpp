#pragma once

#include <string>
#include <vector>

namespace barwright::core {

/// How hard a maker must look at a note.
enum class Severity {
  danger,   ///< someone can be hurt
  caution,  ///< the batch, or a claim about it, can fail
  note,     ///< worth knowing
};

/// Returns "danger", "caution" or "note".
const char* word(Severity severity);

/// A remark to the maker: one or two plain sentences.
struct Note {
  Severity severity = Severity::note;
  std::string text;
  bool first = false;  ///< said before all others: the maker's own figure was changed
};

/// Sorts for the maker: what is to be said first, then the most severe; else as they stand.
void sort_notes(std::vector<Note>& notes);

}  // namespace barwright::core
