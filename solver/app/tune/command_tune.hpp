#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds 'tune': learn from notes on the maker's own bars.
void add_tune(Command app, Action& action);

}  // namespace barwright::app
