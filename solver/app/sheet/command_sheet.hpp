#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `sheet` to the program; parsing it sets `action`.
void add_sheet(Command app, Action& action);

}  // namespace barwright::app
