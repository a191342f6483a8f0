#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `weigh` to the program; parsing it sets `action`.
void add_weigh(Command app, Action& action);

}  // namespace barwright::app
