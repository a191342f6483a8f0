#pragma once

#include "solver/tune/notes_model.hpp"
#include "solver/tune/slice.hpp"

namespace barwright::tune {

/// Returns a fit of what the notes leave: the likeliest state, sought by damped Newton steps, with
/// the spread that the notes' own information leaves there. Wrong in detail; the steps around it
/// are right all the same.
Fit pilot(const NotesModel& model);

}  // namespace barwright::tune
