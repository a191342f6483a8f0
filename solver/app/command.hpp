#pragma once

#include <functional>

#include "solver/app/options/command_line.hpp"
#include "solver/app/program.hpp"

namespace barwright::app {

/// What a command hands back to the program when its subcommand was chosen.
using Action = std::function<Outcome()>;

}  // namespace barwright::app
