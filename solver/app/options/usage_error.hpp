#pragma once

#include <string>

namespace barwright::app {

/// Thrown for a command line that cannot be read, or that asks for something that makes no sense.
/// Exit code 2.
struct UsageError {
  std::string message;
};

}  // namespace barwright::app
