#pragma once

#include <optional>
#include <string>

#include "oils/records/library.hpp"
#include "solver/app/command.hpp"
#include "solver/app/program.hpp"
#include "targets/model/model.hpp"

namespace barwright::app {

/// Whether an answer rests on what the maker's notes say.
struct TunedOptions {
  std::string file;      ///< --tuned FILE
  bool untuned = false;  ///< --untuned
};

/// Adds --tuned and --untuned to a command that asks the model.
void add_tuned(Command command, TunedOptions& options);

/// A model with what an answer says of it.
struct TunedModel {
  targets::PropertyModel model;
  std::string words;  ///< empty: the model as print has it
  std::string mark;   ///< of the readings
};

/// Returns the model an answer rests on: that of --tuned, else of tuned.yaml beside `beside` (a
/// shelf or a question's file; may be empty), else print's. Errors: InputError, "tune again" where
/// readings are of another model, of other notes, oils or program; UsageError for a file that is
/// not there.
TunedModel tuned_model_for(const TunedOptions& options, const std::string& beside,
                           const oils::Library& library);

/// Puts the words under an answer, or into its JSON; nothing where there are none.
Outcome with_tuned(Outcome answer, const CommonOptions& options, const TunedModel& model);

}  // namespace barwright::app
