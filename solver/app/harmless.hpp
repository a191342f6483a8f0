#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/units/error.hpp"

namespace barwright::app {

/// Returns the error of the first argument that holds what none may hold: it would end in a
/// journal, or on a page.
std::optional<core::InputError> unfit_argument(const std::vector<std::string>& args);

/// Returns the text with what a file or a folder's listing brought in shown by a terminal, and not
/// obeyed: the last door. Our own colours pass.
std::string harmless(std::string_view text);
/// The same for JSON, where a sign inside a text is written "\u001b".
std::string harmless_json(std::string_view text);

}  // namespace barwright::app
