#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `swap` to the program; parsing it sets `action`.
void add_swap(Command app, Action& action);

}  // namespace barwright::app
