#pragma once

#include <atomic>
#include <string>
#include <vector>

namespace barwright::app {

/// What a command line gave.
struct Reply {
  int exit_code = 0;  ///< see exit_code.hpp
  std::string text;   ///< for stdout
  std::string error;  ///< for stderr
};

/// Where a run takes place.
struct Surroundings {
  bool terminal = false;  ///< the program's own run: colours, Ctrl-C and servers are its to use
  const std::atomic<bool>* stop = nullptr;  ///< ends a search early when raised; may be null
};

/// Runs a command line (without the program's name) in the present folder and returns what it
/// gives. All exceptions end here, the process goes on, and nothing is kept from run to run but the
/// library.
Reply run(const std::vector<std::string>& args, const Surroundings& where = {});

/// Returns where the run that goes on in this thread takes place.
const Surroundings& surroundings();

}  // namespace barwright::app
