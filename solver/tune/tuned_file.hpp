#pragma once

#include <string>
#include <vector>

#include "oils/records/library.hpp"
#include "solver/tune/learn.hpp"

namespace barwright::tune {

/// What readings were learned from, by marks of its bytes (oils::mark_of).
struct Provenance {
  std::string model, oils, notes, program;
  std::string notes_file;  ///< name of the notes, beside the readings
};

/// One reading as it stands in the file.
struct TunedReading {
  std::vector<double> constants;  ///< all of the model's, in its order
  std::vector<double> offsets;    ///< steps; property by property, oil by oil within
  std::vector<double> scales;     ///< of such offsets, per property
  std::vector<double> by_pour;    ///< log likelihood of the notes that speak of each pour
};

/// Readings of the model as a maker's notes leave it.
struct Tuned {
  Provenance from;
  bool settled = false;
  std::vector<std::string> oils;
  std::vector<targets::Property> properties;
  std::vector<std::string> pours;  ///< those that notes speak of
  std::vector<TunedReading> readings;
};

/// Returns marks of the model's data and of the oils' figures.
std::string model_mark();
std::string oils_mark(const std::vector<const oils::Oil*>& oils);

/// Returns what was learned, for the file. Only `from.notes` and `.program` need be given.
Tuned tuned_of(const NotesModel& model, const Learned& learned, Provenance from);

/// Returns the file of readings: plain text, figures in full digits.
std::string draws_text(const Tuned& tuned);
/// Reads it. Errors: InputError, also for one cut short.
Tuned read_draws(const std::string& text, const std::string& file);

/// Returns one real model, the readings' middle, with the readings as its doubt: printed constants
/// moved by as much as the notes moved their means. Oils that no note speaks of carry a doubt of
/// their own. Errors: InputError at `file` ("tune again") where model, oils or program are others.
targets::PropertyModel tuned_model(const Tuned& tuned, const oils::Library& library,
                                   const std::string& program, const std::string& file);

/// Returns the mark of a tuned file, for answers: of all its readings.
std::string mark(const Tuned& tuned);

}  // namespace barwright::tune
