#pragma once

#include <string>
#include <vector>

#include "core/units/error.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {

/// Returns an error as one of the list `errors`: {"file", "line", "column", "path", "message",
/// "remedy", "suggestions"}; what is not known is null, suggestions are names that may have been
/// meant.
Json error_json(const core::InputError& error);
/// Returns a list of it and of all it carries.
Json errors_json(const core::InputError& error);
/// Return the same of what stands in no file, and as a list.
Json error_json(const std::string& message, const std::string& remedy,
                const std::vector<std::string>& suggestions = {});
Json errors_json(const std::string& message, const std::string& remedy,
                 const std::vector<std::string>& suggestions = {});

}  // namespace barwright::app
