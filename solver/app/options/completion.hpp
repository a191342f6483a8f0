#pragma once

#include <string>

#include "solver/app/options/command_line.hpp"

namespace barwright::app {

/// Return a script that completes the program's commands, options and choices in a shell; what else
/// an option or positional takes is completed as a file's name.
std::string bash_completion(const CommandText& program);
std::string zsh_completion(const CommandText& program);
std::string fish_completion(const CommandText& program);

}  // namespace barwright::app
