#pragma once

#include "solver/app/command.hpp"

namespace barwright::app {

/// Adds `price` to the program; parsing it sets `action`.
void add_price(Command app, Action& action);

}  // namespace barwright::app
