#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/units/error.hpp"

namespace barwright::app {

/// Thrown for a command line that cannot be read, or that asks for something that makes no sense.
/// Exit code 2.
struct UsageError {
  std::string message;
  std::vector<std::string> suggestions;  ///< names that may have been meant
  explicit UsageError(core::Remedy said)
      : message(std::move(said.text)), suggestions(std::move(said.suggestions)) {}
};

}  // namespace barwright::app
