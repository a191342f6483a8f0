#pragma once

#include <string>

#include "solver/app/program.hpp"
#include "solver/batch/batch_plan.hpp"

namespace barwright::app {

/// Returns the batch of this file, weighed out from the built-in library, --library and the shelf
/// it names. Errors: InputError, Refusal.
batch::BatchPlan load_batch(const std::string& path, const CommonOptions& common);
/// The same from this library and shelf.
batch::BatchPlan load_batch(const std::string& path, const oils::Library& library,
                            const std::optional<oils::Shelf>& shelf);

}  // namespace barwright::app
