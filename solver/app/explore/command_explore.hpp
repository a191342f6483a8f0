#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `explore` to the program; parsing it sets `action`.
void add_explore(Command app, Action& action);

}  // namespace barwright::app
