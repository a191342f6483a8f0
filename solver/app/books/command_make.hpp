#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `make` to the program; parsing it sets `action`.
void add_make(Command app, Action& action);

}  // namespace barwright::app
