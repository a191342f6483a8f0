#pragma once

#include <string>

#include "core/units/weight_text.hpp"
#include "solver/app/program.hpp"

namespace barwright::app {

/// Returns what weights are shown in: --units, else as the workshop's file beside `file` says, else
/// grams.
core::Units units_of(const CommonOptions& options, const std::string& file);

/// Returns a sentence that says what a file has from its workshop's file: "From workshop.yaml:
/// scale, room."; empty where it has nothing from it.
std::string workshop_words(const std::string& file);

/// Returns an answer about a file with that sentence at its end, in JSON as "workshop".
Outcome with_workshop(Outcome answer, const CommonOptions& options, const std::string& file);

}  // namespace barwright::app
