#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `manual` and `completion`, which write what a package installs; the help leaves them out.
void add_manual(const CommandLine& program, Command app, Action& action);

}  // namespace barwright::app
