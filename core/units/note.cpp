#include "core/units/note.hpp"

#include <algorithm>

namespace barwright::core {

const char* word(Severity severity) {
  switch (severity) {
    case Severity::danger:
      return "danger";
    case Severity::caution:
      return "caution";
    case Severity::note:
      return "note";
  }
  return "note";
}

void sort_notes(std::vector<Note>& notes) {
  std::stable_sort(notes.begin(), notes.end(), [](const Note& a, const Note& b) {
    return a.first != b.first ? a.first : a.severity < b.severity;
  });
}

}  // namespace barwright::core
