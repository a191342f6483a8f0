#pragma once

#include <string>

#include "solver/app/options/usage_error.hpp"

namespace barwright::app {

/// What every command shares. A command sets `exit_code` and returns its text; the program prints
/// it.
struct Outcome {
  int exit_code = 0;
  std::string text;         ///< for stdout
  std::string diagnostics;  ///< for stderr
};

/// Options every command takes.
struct CommonOptions {
  bool json = false;
  std::string library_folder;  ///< --library DIR; empty: none
  std::string units;           ///< --units g or oz; empty: the workshop's, else grams
};

}  // namespace barwright::app
