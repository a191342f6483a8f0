#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `new` to the program; parsing it sets `action`.
void add_new(Command app, Action& action);

}  // namespace barwright::app
