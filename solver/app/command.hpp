#pragma once

#include <functional>

#include "solver/app/options/command_line.hpp"
#include "solver/app/program.hpp"

namespace barwright::app {

/// What a command hands back to the program when its subcommand was chosen.
using Action = std::function<Outcome()>;

/// Each adds one command to `app`; parsing it sets `action`. One per file command_NAME.cpp.
void add_blend(Command app, Action& action);
void add_weigh(Command app, Action& action);
void add_oils(Command app, Action& action);
void add_new(Command app, Action& action);
void add_sheet(Command app, Action& action);
void add_rescue(Command app, Action& action);
void add_shelf(Command app, Action& action);
void add_make(Command app, Action& action);
void add_release(Command app, Action& action);
void add_label(Command app, Action& action);
void add_price(Command app, Action& action);
void add_swap(Command app, Action& action);
void add_explore(Command app, Action& action);
void add_edit(Command app, Action& action);
void add_serve(Command app, Action& action);
/// Adds `manual` and `completion`, which write what a package installs; the help leaves them out.
void add_manual(const CommandLine& program, Command app, Action& action);

/// Adds --json and --library to a command.
void add_common(Command command, CommonOptions& options);

/// Returns "0.1.0".
std::string version();
/// Returns what --version prints: the program's version, and the library's date and size.
std::string version_text();

}  // namespace barwright::app
