#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `oils` to the program; parsing it sets `action`.
void add_oils(Command app, Action& action);

}  // namespace barwright::app
