#pragma once

#include <string>

namespace barwright::tests {

/// What a run of the program gave.
struct Ran {
  int exit_code = -1;
  std::string out;
  std::string err;
};

/// Runs a shell command line in a folder (the source tree unless stated), with `barwright` standing
/// for the program under test; NO_COLOR set, no standard input.
Ran run(const std::string& command, const std::string& folder = BARWRIGHT_SOURCE_DIR);

/// Returns a fresh, empty folder below the system's temporary one, named after `name`.
std::string fresh_folder(const std::string& name);

/// Returns a file's bytes; fails the test when it cannot be read.
std::string slurp(const std::string& path);
void spill(const std::string& path, const std::string& text);

}  // namespace barwright::tests
