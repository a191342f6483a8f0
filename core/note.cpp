#include "core/note.hpp"

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

}  // namespace barwright::core
