#pragma once

#include <string>
#include <string_view>

namespace barwright::oils {

/// Refuses what no file of a maker's may hold (core::first_unfit), with its line and column and the
/// line itself. A byte order mark of UTF-8 is let pass. `name` stands for the file. Errors:
/// InputError.
void check_text(std::string_view text, const std::string& name);

}  // namespace barwright::oils
