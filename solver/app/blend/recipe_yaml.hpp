#pragma once

#include <span>
#include <string>

#include "solver/app/program.hpp"
#include "solver/jobs/blend_job.hpp"
#include "solver/jobs/mannerly.hpp"

namespace barwright::app {

/// Returns a found blend as a recipe file that 'barwright weigh' reads; its shelf is named as seen
/// from the folder of `saved_as`, the manners that were in force are recorded.
std::string recipe_yaml(const jobs::BlendJob& job, const jobs::BlendResult& result,
                        const std::string& saved_as, std::span<const jobs::MannerTold> manners);

/// Writes a file that is not there yet. Errors: UsageError when it exists or cannot be written.
void write_new_file(const std::string& path, const std::string& text);

/// Asks before anything is searched whether a file can be written there; an empty path is no file.
/// Errors: UsageError when it exists or its folder does not.
void check_new_file(const std::string& path);

/// Writes a new file beside an answer. An answer is never lost for it: what goes wrong becomes a
/// line of the outcome's diagnostics and its exit code.
void write_beside(Outcome& outcome, const std::string& path, const std::string& text);

}  // namespace barwright::app
