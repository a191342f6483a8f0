#pragma once

#include "solver/app/options/command_line.hpp"
#include "solver/app/program.hpp"

namespace barwright::app {

/// Adds --json and --library to a command.
void add_common(Command command, CommonOptions& options);

/// Adds --units, to a command that shows weights.
void add_units(Command command, CommonOptions& options);

}  // namespace barwright::app
