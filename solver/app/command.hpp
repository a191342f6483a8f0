#pragma once

#include <functional>

#include "solver/app/program.hpp"

namespace barwright::app {

/// What a command hands back to the program when its subcommand was chosen.
using Action = std::function<Outcome()>;

/// Each adds one subcommand to `app`; parsing it sets `action`. One per file command_NAME.cpp.
void add_blend(CLI::App& app, Action& action);
void add_weigh(CLI::App& app, Action& action);
void add_oils(CLI::App& app, Action& action);
void add_new(CLI::App& app, Action& action);
void add_sheet(CLI::App& app, Action& action);
void add_rescue(CLI::App& app, Action& action);
void add_shelf(CLI::App& app, Action& action);
void add_make(CLI::App& app, Action& action);
void add_release(CLI::App& app, Action& action);
void add_label(CLI::App& app, Action& action);
void add_price(CLI::App& app, Action& action);
void add_swap(CLI::App& app, Action& action);
void add_explore(CLI::App& app, Action& action);

/// Adds --json and --library to a subcommand.
void add_common(CLI::App& command, CommonOptions& options);

}  // namespace barwright::app
