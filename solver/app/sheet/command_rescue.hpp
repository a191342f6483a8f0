#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `rescue` to the program; parsing it sets `action`.
void add_rescue(Command app, Action& action);

}  // namespace barwright::app
