#pragma once

#include <string>

#include "core/units/weight_text.hpp"
#include "solver/app/json.hpp"
#include "solver/app/program.hpp"

namespace barwright::app {

/// Returns what weights are shown in: --units, else as the workshop's file beside `file` says, else
/// grams.
core::Units units_of(const CommonOptions& options, const std::string& file);

/// Returns a sentence that says what a file has from its workshop's file: "From workshop.yaml:
/// scale, room."; empty where it has nothing from it.
std::string workshop_words(const std::string& file);

/// Returns the same of a command whose shelf is named by no option (`named` empty) and by no file:
/// the workshop's file in this folder may name it.
std::string shelf_words(const std::string& named);
/// Returns an answer with a sentence at its end, in JSON as `value` under `key`; without words as
/// it is.
Outcome with_sentence(Outcome answer, bool json, const std::string& words, const std::string& key,
                      Json value);
/// Returns an answer with such a sentence at its end, in JSON as "workshop".
Outcome with_words(Outcome answer, bool json, const std::string& words);
/// Returns an answer about a file with its sentence at its end, in JSON as "workshop".
Outcome with_workshop(Outcome answer, const CommonOptions& options, const std::string& file);

}  // namespace barwright::app
