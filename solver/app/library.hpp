#pragma once

#include "oils/records/library.hpp"
#include "solver/app/program.hpp"

namespace barwright::app {

/// Returns the built-in library with the folder of --library read over it.
oils::Library load_library(const CommonOptions& options);

}  // namespace barwright::app
