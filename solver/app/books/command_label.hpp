#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `label` to the program; parsing it sets `action`.
void add_label(Command app, Action& action);

}  // namespace barwright::app
