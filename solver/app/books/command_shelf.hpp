#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `shelf` to the program; parsing it sets `action`.
void add_shelf(Command app, Action& action);

}  // namespace barwright::app
