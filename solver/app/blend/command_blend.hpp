#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `blend` to the program; parsing it sets `action`.
void add_blend(Command app, Action& action);

}  // namespace barwright::app
