#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `edit` to the program; parsing it sets `action`.
void add_edit(Command app, Action& action);

}  // namespace barwright::app
