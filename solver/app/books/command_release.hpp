#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `release` to the program; parsing it sets `action`.
void add_release(Command app, Action& action);

}  // namespace barwright::app
