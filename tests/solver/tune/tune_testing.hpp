#pragma once

#include <string>

#include "oils/records/library.hpp"
#include "solver/tune/learn.hpp"

namespace barwright::tune::testing {

inline const oils::Library& library() {
  static const oils::Library kept = oils::Library::embedded();
  return kept;
}

inline NotesModel model_of(targets::MakerNotes notes) {
  return NotesModel(std::move(notes), library(), targets::PropertyModel::embedded());
}

inline targets::MakerNotes notes_of(const std::string& text) {
  return targets::read_notes_text(text, "notes.yaml", ".", library());
}

/// Invented: eight pours of six bars.
inline std::string pours() {
  return R"(pours:
  yard 1: {recipe: {blend: {olive: 50 %, coconut: 20 %, high-oleic sunflower: 20 %, castor: 10 %}}, made: 2027-01-04}
  yard 2: {recipe: {blend: {olive: 50 %, coconut: 20 %, high-oleic sunflower: 20 %, castor: 10 %}}, made: 2027-01-18}
  pomace 1: {recipe: {blend: {olive pomace: 70 %, coconut: 25 %, castor: 5 %}}, made: 2027-01-05}
  pomace 2: {recipe: {blend: {olive pomace: 70 %, coconut: 25 %, castor: 5 %}}, made: 2027-01-19}
  shea 1: {recipe: {blend: {olive: 50 %, coconut: 25 %, shea butter: 20 %, castor: 5 %}}, made: 2027-01-06}
  palm 1: {recipe: {blend: {olive: 35 %, coconut: 25 %, palm: 35 %, castor: 5 %}}, made: 2027-01-07}
  lard 1: {recipe: {blend: {lard: 80 %, olive: 20 %}}, made: 2027-01-08}
  salt-free 1: {recipe: {blend: {coconut: 80 %, olive: 20 %}, superfat: 15 %}, made: 2027-01-09}
)";
}

/// Returns `count` comparisons of those pours, each by one of three properties, all "no
/// difference".
inline std::string comparisons(std::size_t count) {
  static const char* const names[] = {"yard 1", "yard 2", "pomace 1", "pomace 2",
                                      "shea 1", "palm 1", "lard 1",   "salt-free 1"};
  static const char* const properties[] = {"hardness", "lather", "working-time"};
  std::string out = "notes:\n";
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t a = i % 8, b = (a + 1 + (i / 8) % 7) % 8;
    out += std::string("  - {compare: ") + names[a] + ", against: " + names[b] +
           ", judged: 2027-03-01, blind: " + (i % 2 == 0 ? "yes" : "no") + ", " +
           properties[i % 3] + ": no difference}\n";
  }
  return out;
}

}  // namespace barwright::tune::testing
