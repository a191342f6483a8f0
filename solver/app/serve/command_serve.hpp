#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `serve` to the program; parsing it sets `action`.
void add_serve(Command app, Action& action);

}  // namespace barwright::app
